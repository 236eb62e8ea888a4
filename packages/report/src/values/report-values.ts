import { formatQuantity } from '@setwright/units';
import { csvOf } from '../text/csv.ts';
import type { Styles } from '../text/styles.ts';
import { together } from '../text/together.ts';
import { printableJson, visible } from '../text/visible.ts';
import { listed } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';
import { quantities, quantityText, type UnitStyle } from './quantities.ts';
import { groundsOf, reasonInLine } from './reason.ts';
import type { ValueRow } from './rows.ts';
import type { PartValues, SetValues } from './values-of.ts';

/** For other programs: numbers in SI units; what could not be had stands by itself. */
export function valuesInJson(path: string, sets: readonly SetValues[]): string {
  const all = sets.flatMap(({ circuit, parts }) =>
    parts.flatMap(({ rows }) => rows.map((row) => ({ receiver: circuit.title, row }))),
  );
  const told = ({ receiver, row }: (typeof all)[number]) => {
    const { part, quantity, at, to, note } = row;
    return { receiver, part, quantity, at, to, note };
  };
  const report = {
    version: 1,
    path,
    values: all.flatMap((each) => {
      const { row } = each;
      if (row.value === undefined) return [];
      const { unit } = quantities[row.quantity];
      return { ...told(each), value: row.value, unit, because: reasonInLine(row.reason) };
    }),
    missing: all.flatMap((each) =>
      each.row.value === undefined ? { ...told(each), missing: each.row.missing } : [],
    ),
  };
  return `${printableJson(report)}\n`;
}

/** For a spreadsheet: numbers in SI units, one line each, empty where one could not be had. */
export function valuesInCsv(sets: readonly SetValues[]): string {
  const lines = sets.flatMap(({ circuit, parts }) =>
    parts.flatMap(({ stage, rows }) =>
      rows.map((row) => [
        circuit.title,
        stage,
        row.part,
        row.quantity,
        row.at,
        row.to,
        row.note,
        row.value,
        quantities[row.quantity].unit,
        row.value === undefined ? undefined : reasonInLine(row.reason),
        row.value === undefined ? row.missing.join('; ') : undefined,
      ]),
    ),
  );
  return csvOf(
    [
      'receiver',
      'stage',
      'part',
      'quantity',
      'at',
      'to',
      'note',
      'value',
      'unit',
      'because',
      'missing',
    ],
    lines,
  );
}

export interface TextOptions {
  readonly style: UnitStyle;
  readonly columns: number;
  readonly styles: Styles;
  /** Numbers alone, without their becauses. */
  readonly short: boolean;
}

/** For a person: stage by stage and part by part, every number with its because below it. */
export function valuesInWords(sets: readonly SetValues[], options: TextOptions): string {
  const { styles } = options;
  const out: string[] = [];
  for (const { circuit, parts, switchedOn } of sets) {
    out.push(styles.strong(visible(circuit.title || 'Receiver without a name')));
    if (switchedOn.length > 0) out.push(`Reckoned with ${visible(listed(switchedOn))} turned on.`);
    if (parts.length === 0) out.push('Nothing in it can be reckoned.');
    const stages = new Set([undefined, ...circuit.stages.map(({ name }) => name)]);
    for (const stage of stages) {
      const here = parts.filter((each) => each.stage === stage);
      if (here.length === 0) continue;
      const title = circuit.stages.find(({ name }) => name === stage)?.title;
      const heading = stage === undefined ? 'The set as a whole' : `Stage ${stage}`;
      out.push('', styles.strong(visible(title ? `${heading}, ${title}` : heading)));
      for (const each of here)
        out.push('', `  ${styles.strong(visible(each.heading))}`, ...rowLines(each, options));
    }
    out.push('');
  }
  return `${out.join('\n').trimEnd()}\n`;
}

/** Columns of the name of a number. */
const NAME_WIDTH = 32;

function rowLines({ part, rows }: PartValues, options: TextOptions): string[] {
  const { styles, short, style, columns } = options;
  const width = Math.max(50, Math.min(columns, 100));
  const out: string[] = [];
  let before = '';
  const unknown = new Map<string, string[]>();
  for (const row of rows) {
    if (row.isAgain) continue;
    const name = nameOf(row, part, style);
    if (row.value === undefined) {
      const lacks = listed(row.missing);
      unknown.set(lacks, [...(unknown.get(lacks) ?? []), name]);
      continue;
    }
    const note = row.note === undefined ? '' : `, ${row.note}`;
    const amount = `${quantityText(row.quantity, row.value, style)}${note}`;
    out.push(`    ${visible(name).padEnd(NAME_WIDTH)} ${visible(amount)}`);
    if (short) continue;
    const grounds = groundsOf(row.reason).join('; ');
    // What rests on the same as the line before need not say so at length.
    const told = grounds !== '' && grounds === before ? 'from the same' : grounds;
    before = grounds;
    const because = [row.reason.formula, told].filter((each) => each !== '').join('; ');
    for (const line of wrapped(together(visible(because)), width, '      '))
      out.push(styles.faint(line.replaceAll('\u00a0', ' ')));
  }
  for (const [lacks, names] of unknown) {
    const line = `not known: ${listed(names)}, for want of ${lacks}`;
    out.push(...wrapped(visible(line), width, '    '));
  }
  return out;
}

/** What a number is, with the frequency it holds at and what it is shared with. */
export function nameOf(row: ValueRow, of: string, style: UnitStyle): string {
  const { quantity, at, to, part } = row;
  const words = row.words ?? quantities[quantity].words;
  if (quantity === 'mutual-inductance' || quantity === 'coupling')
    return `${words}, ${lastName(part)} and ${lastName(to ?? '')}`;
  const where = at === undefined ? '' : ` at ${formatQuantity(at, 'frequency', style)}`;
  return `${part === of ? '' : `${part} `}${words}${where}`;
}

/** `grid` of `L1.grid`. */
function lastName(winding: string): string {
  return winding.slice(winding.lastIndexOf('.') + 1);
}
