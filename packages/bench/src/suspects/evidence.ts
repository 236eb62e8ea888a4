import type { Bench, Circuit, Place } from '@setwright/circuit';
import { type Meter, scaleFor } from '../chart/meter.ts';
import { type Spot, spot } from '../chart/spot.ts';
import { takenSpots } from '../chart/spots.ts';
import type { Click } from '../effects/effect.ts';
import { CLICKS } from '../effects/symptoms.ts';
import type { Symptom } from '../faults/fault.ts';
import { countedOhms } from './foreseen.ts';
import type { DialTold } from './hearing.ts';

/** What a bench says of a set. */
export interface Evidence {
  readonly readings: readonly TakenReading[];
  /** What is heard; empty where the bench says nothing of it. */
  readonly heard: ReadonlySet<Symptom>;
  /** How a tap on a tube's grid was heard, by the tube's name. */
  readonly clicks: ReadonlyMap<string, Click>;
  /** What is told of a dial or condenser. */
  readonly dials: ReadonlyMap<string, DialTold>;
}

/** Whether the set was on while the bench was taken down. */
export function wasOn({ readings, heard, clicks, dials }: Evidence): boolean {
  return (
    heard.size > 0 ||
    clicks.size > 0 ||
    dials.size > 0 ||
    readings.some(({ spot }) => spot.state === 'on' && !spot.tubesOut)
  );
}

export interface TakenReading {
  readonly spot: Spot;
  /** SI; endless for `open`. */
  readonly read: number;
  /** The same as it counts: the logarithm of ohms. */
  readonly value: number;
  readonly place: Place | undefined;
}

/** Volts, amperes and ohms beyond which nobody reads anything on a battery set. */
const MOST = { voltage: 1e5, current: 1e3, resistance: Number.POSITIVE_INFINITY } as const;

/** What a bench says, as far as it can be: of several readings of one spot the last one counts. */
export function evidenceOf(
  circuit: Circuit,
  bench: Bench,
  meter: Meter,
  spots: readonly Spot[],
): Evidence {
  const readings = new Map<string, TakenReading>();
  for (const { read, place, ...taken } of takenSpots(circuit, bench)) {
    if (read === undefined || Number.isNaN(read) || Math.abs(read) > MOST[taken.quantity]) continue;
    const isOhms = taken.quantity === 'resistance';
    if (isOhms && read < 0) continue;
    if (!isOhms && !Number.isFinite(read)) continue;
    const { id: _, ...said } = asCharted(taken, spots);
    // Where no range is said, the reading was taken on the one that it fits.
    const range = said.range ?? scaleFor(meter, taken.quantity, read);
    const at = spot({ ...said, range });
    readings.set(at.id, { spot: at, read, value: isOhms ? countedOhms(read) : read, place });
  }
  const clicks = new Map<string, Click>();
  const dials = new Map<string, DialTold>();
  const heard = new Set<Symptom>();
  for (const { kind, at, words, text, value } of bench.entries) {
    if (kind === 'heard' && text !== undefined) heard.add(text as Symptom);
    if (at === undefined) continue;
    if (kind === 'click') {
      const tube = circuit.partNamed.has(at) ? at : circuit.partOfEnd.get(at)?.name;
      if (tube === undefined) continue;
      const said = CLICKS.find((click) => words.includes(click));
      if (said !== undefined) clicks.set(tube, said);
    }
    if (kind === 'dial') {
      if (words.includes('effect') && words.includes('no')) dials.set(at, 'no effect');
      else if (words.includes('broad')) dials.set(at, 'broad');
      else if (value !== undefined || words.includes('effect')) dials.set(at, 'stands');
    }
  }
  return { readings: [...readings.values()], heard, clicks, dials };
}

/** Volts across a part are written without a sign: the probe is where they are positive. */
function asCharted(taken: Spot, spots: readonly Spot[]): Spot {
  const { across, quantity } = taken;
  if (across === undefined || quantity !== 'voltage') return taken;
  const usual = spots.find((each) => each.across === across && each.quantity === quantity);
  return usual ? { ...taken, at: usual.at, to: usual.to } : taken;
}
