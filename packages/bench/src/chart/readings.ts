import type { TubeLaws } from '@setwright/analysis';
import { type Bench, type Circuit, isSupply, type Place } from '@setwright/circuit';
import { zeroOfFilaments } from '../edits/usual-faults.ts';
import type { SetStanding } from '../edits/workbench.ts';
import { coldNetwork } from './cold-network.ts';
import { type Expected, expectedCold, expectedOn, isWithin, type Shown } from './expected.ts';
import type { Known } from './known.ts';
import { type Meter, meterOf } from './meter.ts';
import {
  modelOf,
  type RestSource,
  sourceOf,
  standingOf,
  strangeTube,
  withTubesOut,
} from './rest-source.ts';
import { type Spot, spot } from './spot.ts';
import { takenSpots, usualSpots } from './spots.ts';
import { type Deviation, deviationsOf } from './tolerances.ts';

/** What a meter is expected to show at a spot, and what it showed. */
export interface Reading extends Spot {
  /** Undefined where it cannot be told. */
  readonly expected: Expected | undefined;
  /** Why it cannot be told. */
  readonly why: string | undefined;
  /** The full scale that it is read on; undefined for a meter with figures. */
  readonly scale: number | undefined;
  /** What was read: SI, endless for `open`, 0 for `short`; undefined where nothing was. */
  readonly read: number | undefined;
  /** Whether what was read lies within the band; undefined where nothing was, or none is known. */
  readonly inRange: boolean | undefined;
  /** The line of the bench. */
  readonly place: Place | undefined;
}

/** The chart of a set: what is expected at every spot, beside what was read. */
export interface BenchChart {
  readonly circuit: Circuit;
  readonly bench: Bench | undefined;
  readonly meter: Meter;
  readonly readings: readonly Reading[];
  /** What to take care of, where volts that can hurt are measured; empty where none are. */
  readonly cautions: readonly string[];
  /** What was taken for granted. */
  readonly taken: readonly string[];
}

export interface ChartOptions {
  /** The bench whose meter, battery volts and readings count. */
  readonly bench?: Bench | undefined;
  /** Laws of tube types found before. Kept by the caller; those of new types are entered. */
  readonly laws?: TubeLaws;
}

/** All that a chart rests on, for those who ask what a fault does to it. */
export interface ChartGrounds {
  readonly chart: BenchChart;
  readonly known: Known;
  readonly deviations: readonly Deviation[];
  /** The sound set with its controls as they stand. */
  readonly standing: SetStanding;
}

/**
 * The readings to expect of a set: volts, lead currents and cold ohms, each with a band from the
 * tolerances of the parts, the state of the batteries and the meter. Never throws.
 */
export function readingsOf(circuit: Circuit, options: ChartOptions = {}): BenchChart {
  return chartGrounds(circuit, options).chart;
}

/** Amperes below which a lead carries none that is worth a reading, and volts across a part. */
const LEAST_AMPERES = 1e-6;
const LEAST_ACROSS = 1e-3;

/** The same with what it rests on. */
export function chartGrounds(circuit: Circuit, options: ChartOptions = {}): ChartGrounds {
  const { bench } = options;
  const known: Known = { laws: options.laws ?? new WeakMap(), wires: new WeakMap() };
  const meter = meterOf(bench);
  const { circuit: powered, measured } = withActualVolts(circuit, bench);
  const standing = standingOf(powered, known);
  const deviations = deviationsOf(powered, measured);
  const shown = shownIn(standing, known, meter, deviations);
  const read = new Map<string, { read: number | undefined; place: Place | undefined }>();
  const spots = new Map<string, Spot>();
  for (const taken of bench ? takenSpots(circuit, bench) : []) {
    spots.set(taken.id, taken);
    read.set(taken.id, taken);
  }
  const isTaken = ({ at, to, quantity, lifted }: Spot): boolean =>
    [...spots.values()].some(
      (each) =>
        each.at === at && each.to === to && each.quantity === quantity && each.lifted === lifted,
    );
  const usual = worthReading(
    usualSpots(circuit)
      .filter((each) => !isTaken(each))
      .map((each) => theRightWay(each, shown)),
    shown,
    zeroOfFilaments(circuit),
  );
  const strange = strangeTube(standing, known);
  const readings = [...spots.values(), ...usual].map((said): Reading => {
    // Volts across a part are written without a sign: the probe is where they are positive.
    const each = theRightWay(said, shown);
    const found = shown(each);
    const value = read.get(said.id);
    return {
      ...each,
      expected: found?.expected,
      why: found ? undefined : whyNot(each, strange),
      scale: found?.scale ?? each.range,
      read: value?.read,
      inRange:
        found && value?.read !== undefined ? isWithin(value.read, found.expected) : undefined,
      place: value?.place,
    };
  });
  const chart: BenchChart = {
    circuit,
    bench,
    meter,
    readings,
    cautions: cautionsOf(readings),
    taken: takenOf(circuit, measured, meter),
  };
  return { chart, known, deviations, standing };
}

/** What is shown at a spot of a set as it stands. */
export function shownIn(
  standing: SetStanding,
  known: Known,
  meter: Meter,
  deviations: readonly Deviation[],
): (spot: Spot) => Shown | undefined {
  const sources = new Map<boolean, RestSource>();
  const sourceFor = (tubesOut: boolean): RestSource => {
    const made = sources.get(tubesOut);
    if (made) return made;
    const stands = tubesOut ? withTubesOut(standing) : standing;
    const source = sourceOf(stands, known, modelOf(stands, known)?.asItIs, deviations);
    sources.set(tubesOut, source);
    return source;
  };
  const network = coldNetwork(standing, true, known);
  return (spot) =>
    spot.state === 'cold'
      ? expectedCold(network, spot, meter, deviations)
      : expectedOn(sourceFor(spot.tubesOut), spot, meter, deviations);
}

/** The set with its taps at the volts that a bench found, and the supplies that it measured. */
export function withActualVolts(
  circuit: Circuit,
  bench: Bench | undefined,
): { readonly circuit: Circuit; readonly measured: ReadonlySet<string> } {
  const actual = new Map(
    (bench?.entries ?? []).flatMap(({ kind, at, value }) =>
      kind === 'actual' && at !== undefined && value ? [[at, value.value] as const] : [],
    ),
  );
  const measured = new Set<string>();
  if (actual.size === 0) return { circuit, measured };
  const parts = circuit.parts.map((part) => {
    if (!isSupply(part)) return part;
    const supplyTaps = part.supplyTaps.map((tap) => {
      const id = part.ends.find(({ name }) => name === tap.end)?.id;
      const volts = actual.get(id ?? '');
      if (volts === undefined) return tap;
      measured.add(part.name);
      return { ...tap, volts };
    });
    return { ...part, supplyTaps };
  });
  const partNamed = new Map(parts.map((part) => [part.name, part]));
  const partOfEnd = new Map(
    [...circuit.partOfEnd].map(([id, part]) => [id, partNamed.get(part.name) ?? part]),
  );
  return { circuit: { ...circuit, parts, partNamed, partOfEnd }, measured };
}

/** Volts across a part with the probe on the end that makes them positive. */
export function theRightWay(each: Spot, shown: (spot: Spot) => Shown | undefined): Spot {
  const { across, quantity, at, to } = each;
  if (across === undefined || quantity !== 'voltage' || to === undefined) return each;
  const { id: _, ...said } = each;
  return (shown(each)?.expected.value ?? 0) < 0 ? spot({ ...said, at: to, to: at }) : each;
}

/** Of the usual spots those that tell something: no dead leads, of many ways home the shortest. */
function worthReading(
  spots: readonly Spot[],
  shown: (spot: Spot) => Shown | undefined,
  zero: string | undefined,
): readonly Spot[] {
  const shortest = new Map<string, { spot: Spot; ohms: number }>();
  const kept = new Set<Spot>();
  for (const spot of spots) {
    const value = shown(spot)?.expected.value;
    if (spot.state === 'cold' && !spot.lifted) {
      const key = wayOf(spot);
      // A grid is measured against A− as well, where nothing may lead.
      if (key === undefined || spot.to === zero) kept.add(spot);
      else if (value !== undefined && value < (shortest.get(key)?.ohms ?? Number.POSITIVE_INFINITY))
        shortest.set(key, { spot, ohms: value });
      continue;
    }
    if (value !== undefined && spot.quantity === 'current' && Math.abs(value) < LEAST_AMPERES)
      continue;
    if (value !== undefined && spot.across !== undefined && spot.state === 'on')
      if (Math.abs(value) < LEAST_ACROSS) continue;
    kept.add(spot);
  }
  for (const { spot } of shortest.values()) kept.add(spot);
  return spots.filter((spot) => kept.has(spot));
}

/** The electrode whose way home a spot measures. */
function wayOf({ at, to }: Spot): string | undefined {
  return [at, to].find((id) => id?.endsWith('.plate') || id?.endsWith('.grid'));
}

function whyNot({ quantity, state, tubesOut }: Spot, strange: string | undefined): string {
  if (state === 'cold') return 'the ohms between these points cannot be told';
  if (strange !== undefined && !tubesOut) return `what ${strange} draws is not known`;
  return quantity === 'current'
    ? 'the current in this lead cannot be told'
    : 'nothing ties these two points together';
}

/** Volts from which on a touch can hurt someone with wet hands. Common practice. */
const HURTING_VOLTS = 40;

function cautionsOf(readings: readonly Reading[]): readonly string[] {
  const isLive = readings.some(
    ({ quantity, expected }) =>
      quantity === 'voltage' && Math.abs(expected?.value ?? 0) >= HURTING_VOLTS,
  );
  if (!isLive) return [];
  return [
    'The volts of B can hurt: clip the leads of the meter on while B is off, keep one hand away from the set, and wear no phones while B is on.',
    'Take B off and let its condensers discharge through a resistor before you change anything.',
  ];
}

function takenOf(circuit: Circuit, measured: ReadonlySet<string>, meter: Meter): readonly string[] {
  const supplies = circuit.parts.filter(isSupply);
  const asWritten = supplies.flatMap(({ name }) => (measured.has(name) ? [] : name));
  const said: string[] = [meter.words];
  if (asWritten.length > 0)
    said.push(`${asWritten.join(', ')} as written, fresh or tired as batteries are`);
  if (supplies.length > 0) said.push('an ammeter without resistance of its own');
  if (circuit.parts.some(({ kind }) => kind === 'tube'))
    said.push('tubes within a quarter of the printed plate current');
  return said;
}
