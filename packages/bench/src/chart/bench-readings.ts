import type { TubeLaws } from '@setwright/analysis';
import type { Bench, Circuit, Place } from '@setwright/circuit';
import { type ColdNetwork, coldNetwork } from './cold-network.ts';
import { type Expected, expectedCold, expectedOn, type Shown } from './expected.ts';
import type { Known } from './known.ts';
import { errorOf, type Meter, meterOf, scaleFor } from './meter.ts';
import { theRightWay, withActualVolts } from './readings.ts';
import { modelOf, type RestSource, sourceOf, standingOf, withTubesOut } from './rest-source.ts';
import type { Spot } from './spot.ts';
import { takenSpots } from './spots.ts';
import { deviationsOf } from './tolerances.ts';

/** A reading that was taken, beside what the meter should have shown. SI. */
export interface BenchReading extends Spot {
  /** Endless for `open`, 0 for `short`. */
  readonly read: number;
  readonly place: Place;
  /** Undefined where it cannot be told. */
  readonly expected: Expected | undefined;
  /** What is there while no meter draws on it; undefined for ohms, and where it cannot be told. */
  readonly unloaded: number | undefined;
  /** By how much the meter may be off at what is expected, on the scale that it was read on. */
  readonly error: number | undefined;
  /** By how much it may be off at what is there, on the scale that this asks for. */
  readonly leastError: number | undefined;
  /** The full scale that this asks for; undefined for a meter with figures. */
  readonly fittingScale: number | undefined;
}

/** What a bench read, and nothing else of the chart. */
export interface ReadBench {
  readonly bench: Bench;
  /** Whether the bench says what its readings were taken with. */
  readonly isMeterSaid: boolean;
  readonly meter: Meter;
  readonly readings: readonly BenchReading[];
}

/**
 * The readings of a bench beside what its meter should have shown of the set as written, with its
 * batteries as they were found. Nothing is worked out where nothing was read. Never throws.
 *
 * @param laws laws of tube types found before, kept by the caller; those of new types are entered.
 */
export function benchReadings(
  circuit: Circuit,
  bench: Bench,
  laws: TubeLaws = new WeakMap(),
): ReadBench {
  const meter = meterOf(bench);
  const isMeterSaid = bench.entries.some(({ kind, value }) => kind === 'meter' && value);
  const taken = takenSpots(circuit, bench).flatMap(({ read, place, ...at }) =>
    read === undefined || Number.isNaN(read) || !place ? [] : [{ at, read, place }],
  );
  if (taken.length === 0) return { bench, isMeterSaid, meter, readings: [] };
  const known: Known = { laws, wires: new WeakMap() };
  const { circuit: powered, measured } = withActualVolts(circuit, bench);
  const standing = standingOf(powered, known);
  const deviations = deviationsOf(powered, measured);
  let network: ColdNetwork | undefined;
  const sources = new Map<boolean, RestSource>();
  const sourceFor = (tubesOut: boolean): RestSource => {
    const made = sources.get(tubesOut);
    if (made) return made;
    const stands = tubesOut ? withTubesOut(standing) : standing;
    const source = sourceOf(stands, known, modelOf(stands, known)?.asItIs, deviations);
    sources.set(tubesOut, source);
    return source;
  };
  const shown = (spot: Spot): Shown | undefined => {
    if (spot.state === 'on') return expectedOn(sourceFor(spot.tubesOut), spot, meter, deviations);
    network ??= coldNetwork(standing, true, known);
    return expectedCold(network, spot, meter, deviations);
  };
  const readings = taken.map(({ at, read, place }): BenchReading => {
    const turned = theRightWay(at, shown);
    const found = shown(turned);
    const loaded = found?.expected.value;
    const unloaded = loaded === undefined ? undefined : withoutMeter(turned, loaded, sourceFor);
    const fittingScale =
      unloaded === undefined ? undefined : scaleFor(meter, turned.quantity, unloaded);
    const off = (value: number | undefined, scale: number | undefined) =>
      value === undefined || !Number.isFinite(value)
        ? undefined
        : errorOf(meter, turned.quantity, value, scale);
    return {
      ...turned,
      read,
      place,
      expected: found?.expected,
      unloaded,
      error: off(loaded, found?.scale),
      leastError: off(unloaded, fittingScale),
      fittingScale,
    };
  });
  return { bench, isMeterSaid, meter, readings };
}

/** What is there while the meter is not. An ammeter is taken to have no ohms of its own. */
function withoutMeter(
  { quantity, at, to, tubesOut }: Spot,
  loaded: number,
  sourceFor: (tubesOut: boolean) => RestSource,
): number | undefined {
  if (quantity === 'current') return loaded;
  if (quantity === 'resistance' || to === undefined) return undefined;
  return sourceFor(tubesOut).openVolts(at, to);
}
