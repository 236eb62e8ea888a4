import { type Dimension, formatQuantity } from '@setwright/units';
import { type Quantity, quantities, quantityText, type UnitStyle } from '../values/quantities.ts';
import type { ValueRow } from '../values/rows.ts';
import type {
  SheetBlock,
  SheetCell,
  SheetColumn,
  SheetNumber,
  SheetSource,
  Tone,
} from './sheet.ts';

/** What stands where nobody has said it: never a zero. */
export const NOT_KNOWN = 'not known';

export const plain = (text: string): SheetCell => ({ text, numbers: [] });

/** A cell to write in. */
export const empty: SheetCell = plain('');

/** A minus sign as print has it; names of terminals keep their hyphens. */
export function minus(text: string): string {
  return text.replace(/^-(?=[\d.])/, '−');
}

/** A cell that is one number as it is written. */
export function numbered(text: string, value: number, source: SheetSource): SheetCell {
  const shown = minus(text);
  return { text: shown, numbers: [{ text: shown, value, source }] };
}

/** A number in the units of the sheet; `not known` where there is none. */
export function amount(
  value: number | undefined,
  dimension: Dimension,
  style: UnitStyle,
  source: SheetSource,
  figures = 3,
): SheetCell {
  if (value === undefined || !Number.isFinite(value)) return plain(NOT_KNOWN);
  return numbered(formatQuantity(value, dimension, style, figures), value, source);
}

/** Cells one after another. */
export function joined(cells: readonly SheetCell[], between = ' '): SheetCell {
  const told = cells.filter(({ text }) => text !== '');
  return {
    text: told.map(({ text }) => text).join(between),
    numbers: told.flatMap(({ numbers }) => numbers),
  };
}

/** A cell with words before and behind it. */
export function within(before: string, cell: SheetCell, behind = ''): SheetCell {
  return { text: `${before}${cell.text}${behind}`, numbers: cell.numbers };
}

/** Less than this many volts no meter tells from none. */
const UNSEEN = 5e-4;

/**
 * A reckoned number of a part, as its row has it; `not known` where a row says that it is missing,
 * and nothing where there is no such row.
 *
 * @param isSize tells the size alone, where words tell which way
 */
export function reckoned(
  rows: readonly ValueRow[],
  part: string,
  quantity: Quantity,
  style: UnitStyle,
  isSize = false,
): SheetCell {
  const row = rows.find((each) => each.part === part && each.quantity === quantity);
  if (!row) return empty;
  if (row.value === undefined) return plain(NOT_KNOWN);
  const { at, to, value } = row;
  const size = isSize ? Math.abs(value) : value;
  const isNone = quantities[quantity].dimension === 'voltage' && Math.abs(size) < UNSEEN;
  const source: SheetSource = {
    from: 'values',
    part,
    quantity,
    ...(at === undefined ? {} : { at }),
    ...(to === undefined ? {} : { to }),
  };
  return numbered(quantityText(quantity, isNone ? 0 : size, style), value, source);
}

export const say = (words: string, tone: Tone = 'plain'): SheetBlock => ({
  kind: 'words',
  tone,
  words,
});

export const list = (items: readonly string[], isOrdered = false): SheetBlock => ({
  kind: 'list',
  isOrdered,
  items,
});

const column =
  (kind: SheetColumn['kind']) =>
  (words: string): SheetColumn => ({ words, kind });

export const naming = column('name');
export const amounts = column('amount');
export const telling = column('words');
export const writing = column('write');

/** A table; nothing for one without a row. Columns in which no row says anything are left out. */
export function table(
  caption: string | undefined,
  columns: readonly SheetColumn[],
  rows: readonly (readonly SheetCell[])[],
): readonly SheetBlock[] {
  if (rows.length === 0) return [];
  const isKept = columns.map(
    ({ kind }, at) => kind === 'write' || rows.some((row) => (row[at]?.text ?? '') !== ''),
  );
  const kept = <T>(each: readonly T[]): T[] => each.filter((_, at) => isKept[at]);
  return [
    {
      kind: 'table',
      table: { caption, columns: kept(columns), rows: rows.map((row) => kept(row)), groups: [] },
    },
  ];
}

/** Rows that belong together within a table. */
export interface RowGroup {
  /** Undefined: its rows need no heading. */
  readonly words: string | undefined;
  readonly rows: readonly (readonly SheetCell[])[];
}

/** The same of several groups of rows under one head, so that their columns stand in line. */
export function groupedTable(
  caption: string | undefined,
  columns: readonly SheetColumn[],
  groups: readonly RowGroup[],
): readonly SheetBlock[] {
  const filled = groups.filter(({ rows }) => rows.length > 0);
  let before = 0;
  const heads = filled.flatMap(({ words, rows }) => {
    const head = words === undefined ? [] : [{ before, words }];
    before += rows.length;
    return head;
  });
  return table(
    caption,
    columns,
    filled.flatMap(({ rows }) => rows),
  ).map((block) =>
    block.kind === 'table' ? { ...block, table: { ...block.table, groups: heads } } : block,
  );
}

/** Every number of a sheet's blocks. */
export function numbersIn(blocks: readonly SheetBlock[]): readonly SheetNumber[] {
  return blocks.flatMap((block) =>
    block.kind === 'table'
      ? block.table.rows.flatMap((row) => row.flatMap(({ numbers }) => numbers))
      : [],
  );
}
