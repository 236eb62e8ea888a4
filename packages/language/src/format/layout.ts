import type { Block } from './blocks.ts';
import type { Item } from './items.ts';

/** The widest line that a block written on one line may make, in UTF-16 code units. */
const MOST_COLUMNS = 100;
/** Deeper blocks than this are not indented further, to bound the size of what is printed. */
const MOST_LEVELS = 60;

/** What the layout goes by. */
export interface Structure {
  readonly text: string;
  readonly items: readonly Item[];
  readonly blocks: readonly Block[];
  /** Numbers of the lines that cannot be read: their words are left as they stand. */
  readonly verbatim: ReadonlySet<number>;
  /** Offsets at which a statement begins. */
  readonly statements: ReadonlySet<number>;
}

/** A printed line: its indentation in levels and in extra spaces, and the items on it. */
interface Row {
  readonly indent: number;
  readonly first: number;
  /** One past the last item. */
  end: number;
}

/** Sets the items down in rows, as text with LF line ends. */
export function layOut(structure: Structure): string {
  const open = blocksToOpen(structure);
  for (;;) {
    const rows = rowsOf(structure, open);
    const crowded = blocksOnWideRows(structure, rows, open);
    if (crowded.length === 0) return print(structure, rows);
    for (const block of crowded) for (const index of [block.open, block.close]) open.add(index);
  }
}

/** Braces of blocks that must stand on several lines: they do so already, or are too long. */
function blocksToOpen({ items, blocks, verbatim }: Structure): Set<number> {
  const open = new Set<number>();
  const widths = [0];
  for (const item of items) widths.push((widths.at(-1) ?? 0) + item.image.length + 1);
  for (const block of blocks) {
    const first = items[block.open];
    const last = items[block.close];
    if (!first || !last) continue;
    const spread = isSpread(items, block) || endsRow(items[block.open + 1]);
    const wide = (widths[block.close] ?? 0) - (widths[block.open] ?? 0) > MOST_COLUMNS;
    // A brace on a line that cannot be read stays where it is; its fellow stands by itself.
    if (spread || wide) {
      if (!verbatim.has(first.line)) open.add(block.open);
      if (!verbatim.has(last.line)) open.add(block.close);
    }
  }
  return open;
}

/** Whether a block's braces stand on different lines of the text. */
function isSpread(items: readonly Item[], { open, close }: Block): boolean {
  return items[open]?.startLine !== items[close]?.startLine;
}

function rowsOf(structure: Structure, open: ReadonlySet<number>): Row[] {
  const { items, verbatim, statements } = structure;
  const rows: Row[] = [];
  const closed = closedBlocks(structure, open);
  let depth = 0;
  let row: Row | undefined;
  let token: Item | undefined;
  let tokenAt = -1;
  // Comments wait until it is known whether the token behind them carries a line on.
  let waiting: number[] = [];
  const begin = (index: number, indent: number) => {
    row = { indent, first: index, end: index + 1 };
    rows.push(row);
  };
  const indentAt = (levels: number, carriedOn: boolean) =>
    2 * Math.min(MOST_LEVELS, Math.max(0, levels)) + (carriedOn ? 2 : 0);
  const settleWaiting = (carriedOn: boolean) => {
    for (const index of waiting) {
      if (startsRow(items, index)) begin(index, indentAt(depth, carriedOn));
      else if (row) row.end = index + 1;
    }
    waiting = [];
  };
  for (const [index, item] of items.entries()) {
    if (item.kind !== 'token') {
      if (waiting.length > 0 || startsRow(items, index)) waiting.push(index);
      else if (row) row.end = index + 1;
      else begin(index, 0);
      continue;
    }
    const asItStands = verbatim.has(item.line);
    const leads =
      item.leadsLine ||
      token === undefined ||
      (!asItStands &&
        (open.has(index) && item.brace === '}'
          ? true
          : (open.has(tokenAt) && token.brace !== undefined) ||
            (statements.has(item.start) && !closed(index))));
    const carriedOn = !leads && token !== undefined && item.startLine > token.endLine;
    const joins = carriedOn && item.brace === '{' && !asItStands;
    const broken =
      leads || (carriedOn && !joins) || waiting.length > 0 || endsRow(items[index - 1]);
    settleWaiting(carriedOn && item.brace !== '{');
    if (broken) {
      const levels = item.brace === '}' ? depth - 1 : depth;
      begin(index, indentAt(levels, !leads && item.brace === undefined));
    } else if (row) row.end = index + 1;
    if (item.brace === '{') depth += 1;
    else if (item.brace === '}') depth -= 1;
    token = item;
    tokenAt = index;
  }
  settleWaiting(false);
  return rows;
}

/** Whether a comment begins a row of its own. */
function startsRow(items: readonly Item[], index: number): boolean {
  const before = items[index - 1];
  return !before || before.kind === 'line-comment' || items[index]?.startsTextLine === true;
}

/** Whether nothing may follow an item on its row: a comment to the line's end, or one that led it. */
function endsRow(item: Item | undefined): boolean {
  if (!item || item.kind === 'token') return false;
  return item.kind === 'line-comment' || item.leadsText || item.endLine > item.startLine;
}

/** Tells of an item whether it stands in a block that is written on one line. */
function closedBlocks(
  { items, blocks }: Structure,
  open: ReadonlySet<number>,
): (index: number) => boolean {
  const change = new Int32Array(items.length + 1);
  for (const block of blocks) {
    if (open.has(block.open) || open.has(block.close) || isSpread(items, block)) continue;
    change[block.open] = (change[block.open] ?? 0) + 1;
    change[block.close] = (change[block.close] ?? 0) - 1;
  }
  let inside = 0;
  const insideAt = items.map((_, index) => {
    inside += change[index] ?? 0;
    return inside > 0;
  });
  return (index) => insideAt[index] ?? false;
}

/** The outermost one-line blocks on rows that are too wide. */
function blocksOnWideRows(
  structure: Structure,
  rows: readonly Row[],
  open: ReadonlySet<number>,
): Block[] {
  const { items, blocks, verbatim } = structure;
  const wide = rows.filter((row) => widthOf(structure, row) > MOST_COLUMNS);
  if (wide.length === 0) return [];
  const closeOf = new Map(blocks.map((block) => [block.open, block.close]));
  const found: Block[] = [];
  for (const row of wide) {
    for (let index = row.first; index < row.end; index += 1) {
      const close = closeOf.get(index);
      const item = items[index];
      if (close === undefined || !item || close >= row.end || verbatim.has(item.line)) continue;
      if (!open.has(index)) found.push({ open: index, close });
      index = close;
    }
  }
  return found;
}

/** Columns that a row takes, without a comment at its end. */
function widthOf(structure: Structure, row: Row): number {
  let end = row.end;
  while (end > row.first && structure.items[end - 1]?.kind !== 'token') end -= 1;
  let width = row.indent;
  for (let index = row.first; index < end; index += 1) {
    if (index > row.first) width += gap(structure, index).length;
    width += structure.items[index]?.image.length ?? 0;
  }
  return width;
}

/** What stands between an item and the one before it on the same row. */
function gap({ text, items, verbatim }: Structure, index: number): string {
  const item = items[index];
  const before = items[index - 1];
  if (!item || !before) return '';
  const asWritten = text.slice(before.end, item.start);
  const onOneLine = before.endLine === item.startLine && before.start < item.start;
  if (item.kind === 'token' && before.kind === 'token' && onOneLine) {
    if (verbatim.has(item.line)) return asWritten;
    // `2` and `3/4` held apart by an unusual space would become one number.
    if (item.isNumber && before.isNumber) return asWritten;
    // `27x` is the name of a type, where `4ohms` is a quantity.
    if (asWritten === '' && isTypeName(items, index - 1)) return '';
  }
  return item.image === ',' && item.kind === 'token' ? '' : ' ';
}

/** Whether an item is where a tube's type is named: `tube V1 27`, `tube type 27`. */
function isTypeName(items: Structure['items'], index: number): boolean {
  const [lead, name, item] = [items[index - 2], items[index - 1], items[index]];
  const line = item?.line;
  return lead?.image === 'tube' && lead.line === line && name?.line === line;
}

function print(structure: Structure, rows: readonly Row[]): string {
  const { items } = structure;
  const lines: string[] = [];
  for (const [number, row] of rows.entries()) {
    if (number > 0 && items[row.first]?.afterBlank) lines.push('');
    let line = ' '.repeat(row.indent);
    for (let index = row.first; index < row.end; index += 1) {
      if (index > row.first) line += gap(structure, index);
      line += items[index]?.image.replace(/\r\n?/g, '\n') ?? '';
    }
    lines.push(line);
  }
  return lines.length > 0 ? `${lines.join('\n')}\n` : '';
}
