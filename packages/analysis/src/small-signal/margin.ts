import type { Circuit } from '@setwright/circuit';
import type { OperatingPoint } from '../operating-point.ts';
import { type Alignment, alignedAt, type TunedSet, tunedSet } from './aligned-at.ts';
import { neutralized } from './neutralizing.ts';
import { type Shaft, shaftsOf } from './shafts.ts';
import { isOfRole, radioChain } from './signal-chain.ts';
import type { SignalSystem, Tuning } from './signal-system.ts';
import { smallSignal } from './small-signal.ts';
import type { StabilityOptions } from './stability.ts';
import { stationsOf } from './stations.ts';
import { feedbackPiece, gridPiece } from './tube-pieces.ts';
import { growthOff, worstTuning } from './worst-tuning.ts';

/** How far a set's radio stages are from the edge of oscillation, over band and dials. */
export interface Margin {
  /** The radio tubes that resistance or capacity was put to. */
  readonly tubes: readonly string[];
  /**
   * Ohms in series with every radio grid, besides what the set has, that just keep it quiet; 0 for
   * a set that is quiet without. Undefined where no resistance up to 100 kilohms does.
   */
  readonly seriesResistance: number | undefined;
  /**
   * Farads between every radio tube's grid and plate, besides what they have, at which it is just
   * on the edge: how much may still come on top of a quiet set; less than nothing for one that
   * oscillates, which is what neutralizing would have to balance. Undefined where no such edge is.
   */
  readonly gridPlate: number | undefined;
}

const MOST_OHMS = 100e3;

/** Farads that a quiet set is tried with, one after another, until it oscillates. */
const TRIED_FARADS: readonly number[] = [0.1, 0.3, 1, 3, 10, 30].map((mmfd) => mmfd * 1e-12);

/** Share of the answer that it may be out by. */
const CLOSE = 0.005;

/** Searches over all dials anew, each from what the last one found. */
const ROUNDS = 4;

/**
 * What would just cure a set that oscillates, or how much a quiet one can still bear, judged over
 * the band with the dials off in the worst way. Only modes of the circuits tuned to the station
 * count, not howling at audio frequencies.
 */
export function margin(
  circuit: Circuit,
  point: OperatingPoint,
  options: StabilityOptions = {},
): Margin {
  const set = smallSignal(circuit, point, { ...options, openGrids: true });
  const tuned = tunedSet(set);
  const shafts = shaftsOf(tuned);
  const stations = options.stations ?? stationsOf(set);
  const middle = stations[Math.floor(stations.length / 2)] ?? 1e6;
  const fixed = new Map(
    neutralized(set, middle).map(({ condenser, farads }) => [condenser, farads] as const),
  );
  const tubes = radioChain(set, middle, alignedAt(set, middle, fixed).tuning)
    .filter(({ part }) => !isOfRole(set, part, 'detector', 'mixer') || isOfRole(set, part, 'radio'))
    .map(({ part }) => part.name);
  if (tubes.length === 0 || shafts.length === 0)
    return { tubes, seriesResistance: 0, gridPlate: undefined };
  const search: Search = {
    system: set.system,
    tuned,
    shafts,
    align: (feedback) =>
      stations.map((frequency) =>
        alignedAt(set, frequency, new Map([...fixed, ...feedback]), tuned),
      ),
  };
  const inGrids = (ohms: number): Knobs => ({
    ohms: new Map(tubes.map((tube) => [gridPiece(tube), ohms])),
    feedback: new Map(),
  });
  const across = (farads: number): Knobs => ({
    ohms: new Map(),
    feedback: new Map(tubes.map((tube) => [feedbackPiece(tube), farads])),
  });
  const isQuiet = worstOf(search, across(0)).growth < 0;
  const own = Math.max(
    ...tubes.map((tube) => circuit.partNamed.get(tube)?.tubeType?.capacitances['grid plate'] ?? 0),
  );
  return {
    tubes,
    seriesResistance: isQuiet ? 0 : edge(search, inGrids, 0, MOST_OHMS, 100),
    gridPlate: isQuiet ? room(search, across) : edge(search, across, 0, 0 - own, 0.1e-12),
  };
}

/** What a quiet set can still bear. */
function room(search: Search, across: (farads: number) => Knobs): number | undefined {
  let quiet = 0;
  for (const farads of TRIED_FARADS) {
    if (worstOf(search, across(farads)).growth > 0)
      return edge(search, across, farads, quiet, 0.1e-12);
    quiet = farads;
  }
  return undefined;
}

interface Knobs {
  readonly ohms: ReadonlyMap<string, number>;
  readonly feedback: Tuning;
}

interface Search {
  readonly system: SignalSystem;
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  /** The set tuned to every station, with capacities besides what it has. */
  align(feedback: Tuning): readonly Alignment[];
}

/** A station by its number, with the dials in one way. */
interface Case {
  readonly station: number;
  readonly offsets: readonly number[];
}

/** The worst growth over all stations and dials, with the case of every station. */
function worstOf(
  { system, tuned, shafts, align }: Search,
  { ohms, feedback }: Knobs,
): { readonly growth: number; readonly cases: readonly Case[] } {
  let growth = Number.NEGATIVE_INFINITY;
  const cases = align(feedback).map((alignment, station) => {
    const worst = worstTuning(system, tuned, shafts, alignment, ohms, feedback);
    growth = Math.max(growth, worst.growth);
    return { station, offsets: worst.offsets };
  });
  return { growth, cases };
}

/**
 * The setting between a loud and a quiet one at which growth just ends. The dials' worst way
 * changes with it: it is sought anew at every edge found, until no worse one turns up.
 *
 * @param first step from the loud end to begin with, in the knob's own unit
 */
function edge(
  search: Search,
  knobs: (setting: number) => Knobs,
  loud: number,
  quiet: number,
  first: number,
): number | undefined {
  const { system, tuned, shafts, align } = search;
  const cases = [...worstOf(search, knobs(loud)).cases, ...worstOf(search, knobs(quiet)).cases];
  const grows = (setting: number): boolean => {
    const { ohms, feedback } = knobs(setting);
    const alignments = align(feedback);
    return cases.some(({ station, offsets }) => {
      const alignment = alignments[station];
      return (
        alignment !== undefined &&
        growthOff(system, tuned, shafts, alignment, offsets, ohms, feedback) > 0
      );
    });
  };
  if (!grows(loud) || grows(quiet)) return undefined;
  let found = quiet;
  for (let round = 0; round < ROUNDS; round++) {
    let [low, high] = [loud, quiet];
    while (Math.abs(high - low) > CLOSE * Math.max(Math.abs(high), Math.abs(low), first)) {
      const middle = (low + high) / 2;
      if (grows(middle)) low = middle;
      else high = middle;
    }
    found = high;
    const worst = worstOf(search, knobs(found));
    if (worst.growth <= 0) return found;
    cases.push(...worst.cases);
    if (grows(quiet)) return undefined;
  }
  return found;
}
