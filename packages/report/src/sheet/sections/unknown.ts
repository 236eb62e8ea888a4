import { listed } from '../../text/words.ts';
import { quantities } from '../../values/quantities.ts';
import { naming, plain, say, table, telling } from '../cells.ts';
import type { SheetBlock, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Which facts the text lacks, and what each of them would give. */
export function unknownSection(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit, rows, dials, response } = grounds;
  const wanted = new Map<string, Set<string>>();
  const add = (fact: string, gives: string): void => {
    wanted.set(fact, (wanted.get(fact) ?? new Set()).add(gives));
  };
  for (const row of rows)
    if (row.value === undefined)
      for (const fact of row.missing)
        if (!fact.startsWith('a drain:'))
          add(fact, `${row.words ?? quantities[row.quantity].words} of ${row.part}`);
  for (const { name, missing } of dials.unknown)
    for (const fact of missing) add(fact, `readings of ${name}`);
  for (const fact of response.missing) add(fact, 'gain and selectivity');
  // Facts that are wanted for the same are told together.
  const alike = new Map<string, string[]>();
  for (const [fact, gives] of wanted) {
    const words = gathered([...gives]);
    alike.set(words, [...(alike.get(words) ?? []), fact]);
  }
  const blocks: SheetBlock[] = [];
  if (circuit.unread.length > 0)
    blocks.push(
      say(
        circuit.unread.length === 1
          ? 'One line of the text cannot be read; what it says is not on this sheet.'
          : `${circuit.unread.length} lines of the text cannot be read; what they say is not on this sheet.`,
        'missing',
      ),
    );
  blocks.push(
    ...table(
      undefined,
      [naming('What the text does not say'), telling('so that this is not known')],
      [...alike].map(([gives, facts]) => [plain(facts.join('; ')), plain(gives)]),
    ),
  );
  return blocks.length === 0 ? undefined : { id: 'unknown', heading: 'Not known', blocks };
}

/** `inductance and resistance of L1.grid`: each part once. */
function gathered(gives: readonly string[]): string {
  const byPart = new Map<string, string[]>();
  for (const each of gives) {
    const [what = '', part = ''] = each.split(/ of (?=[^ ]+$)/);
    byPart.set(part, [...(byPart.get(part) ?? []), what]);
  }
  return [...byPart]
    .map(([part, whats]) => (part === '' ? listed(whats) : `${listed(whats)} of ${part}`))
    .join('; ');
}
