import {
  groundsOf,
  listed,
  nameOf,
  quantityText,
  type UnitStyle,
  type ValueRow,
} from '@setwright/report';
import { plainWords } from '../../text/markdown.ts';

/** Numbers with their becauses as a Markdown list; what is missing comes last. */
export function valueList(rows: readonly ValueRow[], of: string, units: UnitStyle): string {
  const out: string[] = [];
  const unknown = new Map<string, string[]>();
  let before = '';
  for (const row of rows) {
    const name = nameOf(row, of, units);
    if (row.value === undefined) {
      const lacks = listed(row.missing);
      unknown.set(lacks, [...(unknown.get(lacks) ?? []), name]);
      continue;
    }
    const note = row.note === undefined ? '' : `, ${row.note}`;
    const amount = quantityText(row.quantity, row.value, units);
    const grounds = groundsOf(row.reason).join('; ');
    // What rests on the same as the line before need not say so at length.
    const told = grounds !== '' && grounds === before ? 'from the same' : grounds;
    before = grounds;
    const because = [row.reason.formula, told].filter((each) => each !== '').join('; ');
    out.push(
      `- ${plainWords(name)} **${plainWords(amount)}**${plainWords(note)}`,
      `  because ${plainWords(because)}`,
    );
  }
  for (const [lacks, names] of unknown)
    out.push(`- not known: ${plainWords(listed(names))}, for want of ${plainWords(lacks)}`);
  return out.join('\n');
}
