import { isSupply, type Part, zeroTap } from '@setwright/circuit';
import { suppliesStep } from '../../tour/steps/supplies.ts';
import { zeroStep } from '../../tour/steps/zero.ts';
import { called, endOf, partsAt } from '../../tour/wiring.ts';
import type { Quantity } from '../../values/quantities.ts';
import {
  amounts,
  empty,
  minus,
  NOT_KNOWN,
  naming,
  numbered,
  plain,
  reckoned,
  say,
  table,
  telling,
  writing,
} from '../cells.ts';
import { inItsPlace } from '../replacements/supplies.ts';
import type { SheetCell, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Every tap with its volts and where it goes, every battery with its drain and hours. */
export function supplies(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit, rows, style } = grounds;
  const all = circuit.parts.filter(isSupply);
  if (all.length === 0) return undefined;
  const taps = all.flatMap((supply) =>
    supply.supplyTaps.map((tap): readonly SheetCell[] => {
      const isZero = tap === zeroTap(supply);
      return [
        plain(tap.end),
        plain(supply.name),
        voltsOf(supply, tap.end),
        isZero ? empty : reckoned(rows, tap.end, 'voltage', style),
        currentOf(grounds, tap.end),
        plain(whatMeets(grounds, supply, tap.end)),
        empty,
      ];
    }),
  );
  const drains = all.map((supply): readonly SheetCell[] => [
    plain(supply.title === undefined ? supply.name : `${supply.name}, ${supply.title}`),
    plain(kindOf(supply)),
    drainOf(grounds, supply.name),
    capacity(supply),
    hours(grounds, supply),
    plain(inItsPlace(supply, grounds)),
  ]);
  const words = [
    ...suppliesStep(grounds).sentences,
    ...(zeroStep(grounds)?.sentences ?? []),
  ].filter((sentence) => !sentence.startsWith('The signal comes from'));
  return {
    id: 'supplies',
    heading: 'Supplies',
    blocks: [
      say(words.join(' ')),
      ...table(
        'Taps',
        [
          naming('Tap'),
          telling('of'),
          amounts('as written'),
          amounts('under load'),
          amounts('current'),
          telling('joined to'),
          writing('measured'),
        ],
        taps,
      ),
      ...table(
        'Drain and hours',
        [
          naming('Supply'),
          telling('kind'),
          amounts('drain'),
          amounts('holds'),
          amounts('lasts'),
          telling('in its place today'),
        ],
        drains,
      ),
      say(
        'Under load, current, drain and hours are reckoned with the set on and no signal. What serves in place of a battery is common practice.',
        'note',
      ),
    ],
  };
}

function voltsOf({ name, supplyTaps }: Part, end: string): SheetCell {
  const tap = supplyTaps.find((each) => each.end === end);
  if (tap?.volts === undefined) return plain(NOT_KNOWN);
  const load = tap.atLoad === undefined ? '' : ' loaded';
  const text = tap.said?.text ?? `${tap.volts} V`;
  const cell = numbered(minus(text), tap.volts, { from: 'tap', supply: name, tap: end });
  return load === '' ? cell : { ...cell, text: `${cell.text}${load}` };
}

/** Fewer amperes than these are none to a meter, and to the cells. */
const NONE = 1e-6;

const currentOf = ({ rows, style }: SheetGrounds, tap: string): SheetCell =>
  isNone(rows, tap, 'current') ? plain('none') : reckoned(rows, tap, 'current', style, true);

const drainOf = ({ rows, style }: SheetGrounds, supply: string): SheetCell =>
  isNone(rows, supply, 'drain') ? plain('none') : reckoned(rows, supply, 'drain', style, true);

function isNone(rows: SheetGrounds['rows'], part: string, quantity: Quantity): boolean {
  const value = rows.find((row) => row.part === part && row.quantity === quantity)?.value;
  return value !== undefined && Math.abs(value) < NONE;
}

/** What is wired to a tap, by the names of its parts. */
function whatMeets({ circuit }: SheetGrounds, supply: Part, tap: string): string {
  const end = endOf(supply, tap);
  if (!end) return '';
  const names = partsAt(circuit, end.junction).flatMap((part) => {
    if (part === supply) return [];
    if (isSupply(part))
      return part.ends
        .filter(({ junction }) => junction === end.junction)
        .map(({ id }) => called(circuit, id));
    return [part.name];
  });
  return names.length === 0 ? 'nothing' : names.join(', ');
}

export function kindOf(supply: Part): string {
  if (supply.kind === 'eliminator') return 'from the mains';
  return supply.words.has('storage')
    ? 'storage battery'
    : supply.words.has('dry')
      ? 'dry battery'
      : 'battery';
}

function capacity({ name, values }: Part): SheetCell {
  const { capacity: said } = values;
  return said
    ? numbered(said.text, said.value, { from: 'text', part: name, slot: 'capacity' })
    : empty;
}

/** Hours of service; for a battery that gives practically nothing its age decides. */
function hours({ rows, style, circuit }: SheetGrounds, supply: Part): SheetCell {
  const drain = rows.find((row) => row.part === supply.name && row.quantity === 'drain');
  if (drain?.value !== undefined && Math.abs(drain.value) < NO_DRAIN)
    return plain('as long as it keeps');
  const cell = reckoned(rows, supply.name, 'hours', style);
  if (cell.text !== NOT_KNOWN) return cell;
  const of = circuit.partNamed.get(supply.name)?.values.capacity;
  return plain(of ? NOT_KNOWN : `${NOT_KNOWN}: its capacity is not said`);
}

/** At a drain of fewer amperes cells die of age first. */
const NO_DRAIN = 1e-5;
