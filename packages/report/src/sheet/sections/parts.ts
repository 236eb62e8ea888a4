import { isSupply, type Part, type PartKindName, partKinds } from '@setwright/circuit';
import { type Dimension, formatQuantity } from '@setwright/units';
import { listed } from '../../text/words.ts';
import type { PlaceUse } from '../../tour/places.ts';
import { called } from '../../tour/wiring.ts';
import {
  amount,
  amounts,
  empty,
  joined,
  NOT_KNOWN,
  naming,
  numbered,
  plain,
  reckoned,
  say,
  table,
  telling,
  within,
  writing,
} from '../cells.ts';
import { replacement } from '../replacements/parts.ts';
import type { SheetBlock, SheetCell, SheetColumn, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';
import { kindOf } from './supplies.ts';

/** Every part of the set: as it is printed, in SI units, what it bears, what it was found to be. */
export function partsList(grounds: SheetGrounds): SheetSection {
  const { circuit } = grounds;
  const of = (...kinds: readonly PartKindName[]): readonly Part[] =>
    circuit.parts.filter(({ kind }) => kinds.includes(kind));
  const rows = (parts: readonly Part[], cells: (part: Part) => readonly SheetCell[]) =>
    parts.map((part) => [plain(part.name), plain(whatItIs(part)), ...cells(part)]);
  const wound = of('coil', 'transformer', 'winding', 'variometer', 'loop', 'choke');
  const plainOnes = circuit.parts.filter((part) => isSupply(part) || others.has(part.kind));
  const blocks: readonly SheetBlock[] = [
    ...tubes(grounds, of('tube')),
    ...table(
      'Condensers',
      [...head, ...sizes, amounts('rated'), amounts('volts on it'), ...tail],
      rows(of('condenser'), (part) => [
        printed(part),
        inSi(part),
        rated(part),
        across(grounds, part),
        found(circuit.partNamed, part),
        plain(replacement(part, grounds)),
      ]),
    ),
    ...table(
      'Resistors, leaks and controls',
      [...head, ...sizes, amounts('rated'), amounts('heat'), ...tail],
      rows(
        of('resistor', 'leak', 'rheostat', 'potentiometer', 'ballast', 'lamp', 'fuse'),
        (part) => [
          printed(part),
          inSi(part),
          rated(part),
          reckoned(grounds.rows, part.name, 'dissipation', grounds.style),
          found(circuit.partNamed, part),
          plain(replacement(part, grounds)),
        ],
      ),
    ),
    ...table(
      'Coils, transformers and chokes',
      [...head, amounts('as printed'), amounts('inductance'), amounts('ohms'), ...tail],
      rows(wound, (part) => [
        printed(part),
        reckoned(grounds.rows, part.name, 'inductance', grounds.style),
        reckoned(grounds.rows, part.name, 'resistance', grounds.style),
        found(circuit.partNamed, part),
        plain(replacement(part, grounds)),
      ]),
    ),
    ...table(
      'Phones and loudspeakers',
      [...head, ...sizes, amounts('rated'), amounts('current in it'), ...tail],
      rows(of('phones', 'horn', 'speaker'), (part) => [
        printed(part),
        inSi(part),
        rated(part),
        reckoned(grounds.rows, part.name, 'current', grounds.style, true),
        found(circuit.partNamed, part),
        plain(replacement(part, grounds)),
      ]),
    ),
    ...table(
      'Switches, posts, supplies and the rest',
      [...head, amounts('as printed'), telling('stands / meets'), ...tail],
      rows(plainOnes, (part) => [
        isSupply(part) ? plain('see Supplies') : printed(part),
        plain(isSupply(part) ? '' : standing(grounds, part)),
        found(circuit.partNamed, part),
        plain(isSupply(part) ? '' : replacement(part, grounds)),
      ]),
    ),
  ];
  return {
    id: 'parts',
    heading: 'Parts',
    blocks:
      circuit.parts.length === 0
        ? [say('The text names no part.', 'missing')]
        : [
            ...blocks,
            say(
              'As printed: what the text says of the part. Volts, currents, heat, inductance and, of coils, ohms are reckoned. What to look for where a part must be replaced is common practice; the old part stays in the set, or with it.',
              'note',
            ),
          ],
  };
}

const head: readonly SheetColumn[] = [naming('Part'), telling('what it is')];
const sizes: readonly SheetColumn[] = [amounts('as printed'), amounts('SI')];
const tail: readonly SheetColumn[] = [amounts('found'), telling('look for')];

/** Kinds that have no table of their own. */
const others: ReadonlySet<PartKindName> = new Set([
  'post',
  'bus',
  'lead',
  'crystal',
  'switch',
  'selector',
  'shield',
  'jack',
]);

function whatItIs(part: Part): string {
  if (part.title !== undefined) return part.title;
  if (isSupply(part)) return kindOf(part);
  const { noun } = partKinds[part.kind];
  const sorts = [...part.words].filter((word) => sortWords.has(word));
  return part.kind === 'post' && sorts.length > 0
    ? `${noun} for ${listed(sorts)}`
    : [...sorts, noun].join(' ');
}

/** Plain words that say what sort of part it is. */
const sortWords: ReadonlySet<string> = new Set([
  'variable',
  'trimmer',
  'neutralizing',
  'electrolytic',
  'mica',
  'paper',
  'air',
  'aerial',
  'ground',
  'loop',
  'speaker',
  'phones',
]);

/** Slots that say what a part bears and how true it is, and not what it is. */
const bearing = ['ratedVoltage', 'ratedCurrent', 'ratedPower', 'tolerance'] as const;

/** Slots that say what a part is, in the order in which they are told. */
const being: readonly string[] = [
  'ratio',
  'tuned',
  'turns',
  'volts',
  'capacitance',
  'inductance',
  'resistance',
  'plates',
];

/** What the text says of a part, in its own units. */
function printed(part: Part): SheetCell {
  const { name, values, ranges, setting } = part;
  const cells: SheetCell[] = [];
  for (const slot of being) {
    const range = ranges[slot];
    if (range) cells.push(plain(rangeText(range.low.text, range.high.text)));
    const said = values[slot];
    if (!said) continue;
    const cell = numbered(said.text, said.value, { from: 'text', part: name, slot });
    cells.push(slot === 'tuned' && !/tuned/.test(said.text) ? within('tuned ', cell) : cell);
  }
  const { winding } = part;
  const wire = winding?.gauge
    ? `of ${winding.gauge.number}${winding.gauge.table === 'SWG' ? ' swg' : ''}${winding.covering ? ` ${winding.covering}` : ''}`
    : '';
  if (winding?.turns && !values.turns)
    cells.push(
      numbered(turnsText(winding.turns.text), winding.turns.value, {
        from: 'make',
        part: name,
        what: 'turns',
      }),
    );
  if (wire !== '') cells.push(plain(wire));
  if (part.typeName !== undefined) cells.push(plain(part.typeName));
  if (setting?.kind === 'off') cells.push(plain('set off'));
  if (setting?.kind === 'ohms')
    cells.push(plain(`set ${formatQuantity(setting.ohms, 'resistance', 'period')}`));
  if (setting?.kind === 'fraction')
    cells.push(plain(`set ${formatQuantity(setting.fraction, 'percent', 'period')}`));
  const sizesOf = being.filter((slot) => partKinds[part.kind].amounts[slot] !== undefined);
  if (cells.length === 0 && sizesOf.length > 0 && part.kind !== 'post') return plain(NOT_KNOWN);
  return joined(cells, ' ');
}

/** `14 to 365 mmfd`: the unit once where both are in it. */
function rangeText(low: string, high: string): string {
  const unit = / ?[^\d\s./]+$/.exec(high)?.[0] ?? '';
  return `${unit !== '' && low.endsWith(unit) ? low.slice(0, -unit.length) : low} to ${high}`;
}

const turnsText = (text: string): string => (/turn/.test(text) ? text : `${text} turns`);

/** The same in SI units, where that says more. */
function inSi(part: Part): SheetCell {
  const { name, values, ranges } = part;
  const si = (value: number, dimension: Dimension): string =>
    formatQuantity(value, dimension, 'si', 4);
  const cells = being.flatMap((slot): SheetCell[] => {
    const range = ranges[slot];
    if (range) {
      const { dimension } = range.high;
      return [plain(rangeText(si(range.low.value, dimension), si(range.high.value, dimension)))];
    }
    const said = values[slot];
    if (!said || said.dimension === 'turns' || said.dimension === 'plates') return [];
    if (said.dimension === 'ratio' || said.dimension === 'number') return [];
    return [
      numbered(si(said.value, said.dimension), said.value, { from: 'text', part: name, slot }),
    ];
  });
  return joined(cells);
}

/** What it bears, and how true it is. */
function rated({ name, values }: Part): SheetCell {
  const cells = bearing.flatMap((slot) => {
    const said = values[slot];
    if (!said) return [];
    const text = slot === 'tolerance' ? `± ${said.text}` : said.text;
    return [numbered(text, said.value, { from: 'text', part: name, slot })];
  });
  return joined(cells, ', ');
}

/** What it was found to be on the bench. */
function found(named: ReadonlyMap<string, Part>, part: Part): SheetCell {
  const owner = named.get(part.owner ?? '');
  if (part.values.found)
    return numbered(part.values.found.text, part.values.found.value, {
      from: 'text',
      part: part.name,
      slot: 'found',
    });
  const is = (how: string): boolean =>
    part.words.has(`found ${how}`) || (owner?.words.has(`found ${how}`) ?? false);
  return plain(is('open') ? 'open' : is('short') ? 'shorted' : '');
}

/** Direct volts across a condenser, the size alone. */
function across({ point, style }: SheetGrounds, { ends }: Part): SheetCell {
  const [one, other] = [ends[0]?.id ?? '', ends.at(-1)?.id ?? ''];
  const volts = point.voltage(one, other);
  if (volts === undefined) return empty;
  if (Math.abs(volts) < UNSEEN) return plain('none');
  const [of, above] = volts < 0 ? [other, one] : [one, other];
  return amount(Math.abs(volts), 'voltage', style, { from: 'volts', of, above });
}

/** Volts that no meter tells from none. */
const UNSEEN = 5e-4;

/** How a switch stands, and what else is at a post or bus. */
function standing({ circuit }: SheetGrounds, part: Part): string {
  const { kind, positions, drawnAt, ends } = part;
  if (positions.length > 0) return positions[drawnAt] ?? '';
  if (kind !== 'post' && kind !== 'bus') return '';
  const [end] = ends;
  const own = circuit.junctions[end?.junction ?? -1]?.terminals ?? [];
  const all = own.filter((id) => id !== end?.id).map((id) => called(circuit, id));
  const shown = all.slice(0, MOST_MET);
  const rest = all.length - shown.length;
  return rest > 0 ? `${shown.join(', ')} and ${rest} more` : listed(shown);
}

/** Terminals that are named at one post. */
const MOST_MET = 6;

const uses: Readonly<Record<PlaceUse, string>> = {
  radio: 'amplifies radio',
  mixer: 'mixes',
  intermediate: 'amplifies the difference',
  detector: 'detects',
  audio: 'amplifies audio',
  oscillator: 'oscillates',
};

function tubes(grounds: SheetGrounds, parts: readonly Part[]): readonly SheetBlock[] {
  const { rows, style, places } = grounds;
  return table(
    'Tubes',
    [
      naming('Tube'),
      telling('what it does'),
      amounts('type'),
      amounts('base'),
      amounts('filament'),
      amounts('gets'),
      amounts('bias'),
      amounts('plate'),
      amounts('at most'),
      amounts('current'),
      writing('fitted, tested'),
    ],
    parts.map((part) => {
      const { name, tubeType } = part;
      const jobs = places
        .filter(({ part: at, twins }) => at === part || twins.includes(part))
        .map(({ use }) => uses[use]);
      const what = [...new Set(jobs)].join(', ');
      const type = (
        which: 'filamentVolts' | 'filamentAmperes' | 'plateLimit',
        dimension: Dimension,
      ): SheetCell =>
        tubeType?.[which] === undefined
          ? empty
          : amount(tubeType[which], dimension, style, {
              from: 'tube-type',
              tube: name,
              what: which,
            });
      return [
        plain(name),
        plain(part.title ?? what),
        plain(part.typeName ?? NOT_KNOWN),
        plain(tubeType?.base ?? ''),
        joined([type('filamentVolts', 'voltage'), type('filamentAmperes', 'current')]),
        reckoned(rows, name, 'filament-voltage', style),
        reckoned(rows, name, 'bias', style),
        reckoned(rows, name, 'plate-voltage', style),
        type('plateLimit', 'voltage'),
        reckoned(rows, name, 'plate-current', style),
        empty,
      ];
    }),
  );
}
