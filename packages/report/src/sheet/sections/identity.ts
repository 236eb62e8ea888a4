import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import { listed } from '../../text/words.ts';
import { kindOfSet, tuningDials } from '../../tour/steps/glance.ts';
import { inWords, named } from '../../tour/wiring.ts';
import { joined, numbered, plain } from '../cells.ts';
import type { SheetCell, SheetFact } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** The title block: what is known of the set as a whole, and lines to write on. */
export function identity(grounds: SheetGrounds): readonly SheetFact[] {
  const { circuit, date } = grounds;
  const facts: SheetFact[] = [];
  const add = (term: string, cell: SheetCell | undefined): void => {
    if (cell && cell.text !== '') facts.push({ term, cell });
  };
  add('Kind', plain(capital(kindOfSet(grounds))));
  add('Year', plain(circuit.year?.text ?? ''));
  add('Tunes', band(grounds));
  add('Tubes', plain(tubes(grounds)));
  add('Tuned by', plain(listed(tuning(grounds))));
  add('Stages', plain(stages(grounds)));
  add('Aerial', plain(posts(grounds, 'aerial')));
  add('Heard from', plain(listed(sounding(grounds))));
  facts.push({ term: 'Inventory no.', cell: undefined });
  facts.push({ term: 'Serial no.', cell: undefined });
  facts.push({ term: 'Checked by', cell: undefined });
  facts.push({ term: 'Date', cell: date === undefined ? undefined : plain(date) });
  return facts;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The band that it is to tune: as frequency and as wave. */
function band({ circuit, style }: SheetGrounds): SheetCell | undefined {
  const { tunes } = circuit;
  if (!tunes) return undefined;
  const edge = (which: 'low' | 'high'): SheetCell => {
    const { value } = tunes[which];
    const text = formatQuantity(value, 'frequency', style, 4);
    return numbered(text, value, { from: 'band', edge: which });
  };
  const waves = (['low', 'high'] as const).map((which) =>
    formatQuantity(SPEED_OF_LIGHT / tunes[which].value, 'wavelength', style),
  );
  return joined([edge('low'), plain('to'), edge('high'), plain(`(${waves.join(' to ')})`)]);
}

/** `five: 01-A` where all are of one type, else how many of each. */
function tubes({ circuit }: SheetGrounds): string {
  const types = new Map<string, number>();
  for (const { kind, typeName } of circuit.parts)
    if (kind === 'tube') {
      const type = typeName ?? 'of unknown type';
      types.set(type, (types.get(type) ?? 0) + 1);
    }
  if (types.size === 0) return 'none';
  const all = [...types.values()].reduce((sum, count) => sum + count, 0);
  const [only] = types.keys();
  if (types.size === 1) return `${inWords(all)}, ${all > 1 ? 'all ' : ''}${only}`;
  return `${inWords(all)}: ${[...types].map(([type, count]) => `${count} × ${type}`).join(', ')}`;
}

function tuning(grounds: SheetGrounds): readonly string[] {
  const { circuit } = grounds;
  return tuningDials(grounds).map((name) => {
    const dial = circuit.dials.find((each) => each.name === name);
    const drives = dial ? ` (${listed(dial.drives)})` : '';
    return `${name}${drives}`;
  });
}

function stages({ circuit }: SheetGrounds): string {
  return circuit.stages
    .map(({ name, title }) => (title === undefined ? name : `${name} (${title})`))
    .join(', ');
}

function posts({ circuit }: SheetGrounds, word: string): string {
  return listed(
    circuit.parts
      .filter(({ kind, words }) => kind === 'loop' || (kind === 'post' && words.has(word)))
      .map(({ name, values }) =>
        values.capacitance ? `${name}, taken as ${values.capacitance.text}` : name,
      ),
  );
}

function sounding({ circuit }: SheetGrounds): readonly string[] {
  return circuit.parts
    .filter(({ kind }) => kind === 'phones' || kind === 'horn' || kind === 'speaker')
    .map(named);
}
