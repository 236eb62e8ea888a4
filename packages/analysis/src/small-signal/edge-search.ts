import type { Alignment, TunedSet } from './aligned-at.ts';
import { type KnobbedNetwork, type Knobs, matricesWith } from './knobbed-network.ts';
import { exactModes, type ModeOff, modelModes } from './modes-off.ts';
import type { Shaft } from './shafts.ts';
import type { Tuning } from './signal-system.ts';
import { stationModel } from './station-model.ts';
import { tunedSystem } from './tuned-system.ts';
import { worstTuning } from './worst-tuning.ts';

/** A set in which the edge of oscillation is sought, over its stations and all its dials. */
export interface EdgeSearch {
  readonly network: KnobbedNetwork;
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  /** The set tuned to every station, with capacities besides what it has. */
  align(farads: Tuning): readonly Alignment[];
}

/** A station by its number, with the dials in one way. */
interface Case {
  readonly station: number;
  readonly offsets: readonly number[];
}

/** Share of the answer that it may be out by. */
const CLOSE = 0.003;

/** Steps in which an edge is closed in on at most. */
const MOST_STEPS = 40;

/** Searches over all dials anew, each from what the last one found. */
const ROUNDS = 4;

/** How the fastest mode of every station goes with the dials, the knobs in one way. */
function modesWith(
  { network, tuned, shafts, align }: EdgeSearch,
  knobs: Knobs,
): readonly ModeOff[] {
  const matrixAt = matricesWith(network, knobs);
  return align(knobs.farads).map((alignment) => {
    const shaftsAt = { tuned, shafts, alignment };
    const model = stationModel(network.left.size, matrixAt, alignment.frequency);
    if (model) return modelModes(shaftsAt, network.left, model);
    return exactModes(shaftsAt, (tuning) =>
      tunedSystem(network.system, new Map([...tuning, ...knobs.farads]), knobs.ohms),
    );
  });
}

/** How bad it gets with the knobs in one way. */
export interface Worst {
  /** The worst growth over all stations and dials, nepers per second. */
  readonly growth: number;
  /** The dials of every station. */
  readonly cases: readonly Case[];
}

export function worstOf(search: EdgeSearch, knobs: Knobs): Worst {
  let growth = Number.NEGATIVE_INFINITY;
  const cases = modesWith(search, knobs).map((modeOff, station) => {
    const { offsets, mode } = worstTuning(search.shafts.length, modeOff);
    growth = Math.max(growth, mode?.growth ?? Number.NEGATIVE_INFINITY);
    return { station, offsets };
  });
  return { growth, cases };
}

/**
 * The setting at which growth just ends, on the quiet side, between a loud one and the first that
 * is quiet of those tried after it. The dials' worst way changes with it: it is sought anew at
 * every edge found, until no worse one turns up. Undefined where none is quiet.
 *
 * @param loud a loud setting @param worst what it is like there
 */
export function edge(
  search: EdgeSearch,
  knobs: (setting: number) => Knobs,
  loud: number,
  worst: Worst,
  tried: readonly number[],
): number | undefined {
  const cases = [...worst.cases];
  const growthAt = (setting: number): number => {
    const modes = modesWith(search, knobs(setting));
    let most = Number.NEGATIVE_INFINITY;
    for (const { station, offsets } of cases)
      most = Math.max(most, modes[station]?.(offsets)?.growth ?? most);
    return most;
  };
  let low: Setting = [loud, worst.growth];
  for (const quiet of tried) {
    let growth = growthAt(quiet);
    if (growth < 0) {
      const all = worstOf(search, knobs(quiet));
      cases.push(...all.cases);
      growth = all.growth;
    }
    if (!(growth > 0)) return closeAll(search, knobs, cases, growthAt, low, [quiet, growth]);
    low = [quiet, growth];
  }
  return undefined;
}

function closeAll(
  search: EdgeSearch,
  knobs: (setting: number) => Knobs,
  cases: Case[],
  growthAt: (setting: number) => number,
  loud: Setting,
  quiet: Setting,
): number {
  let low = loud;
  for (let round = 0; round < ROUNDS; round++) {
    const found = closeIn(growthAt, low, quiet);
    const { growth, cases: more } = worstOf(search, knobs(found));
    if (!(growth > 0)) return found;
    cases.push(...more);
    low = [found, growth];
  }
  return low[0];
}

type Setting = readonly [setting: number, growth: number];

/** The quiet side of where growth ends, by false position with the standing end's weight halved. */
function closeIn(
  growthAt: (setting: number) => number,
  [loud, loudGrowth]: Setting,
  [quiet, quietGrowth]: Setting,
): number {
  let [low, high] = [loud, quiet];
  let [above, below] = [loudGrowth, quietGrowth];
  let last = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    if (Math.abs(high - low) <= CLOSE * Math.max(Math.abs(high), Math.abs(low))) break;
    // Always well inside, so that the interval closes from both ends.
    const share = Math.min(0.9, Math.max(0.1, above / (above - below)));
    const middle = low + (high - low) * (Number.isFinite(share) ? share : 0.5);
    const growth = growthAt(middle);
    if (growth > 0) {
      [low, above] = [middle, growth];
      if (last > 0) below /= 2;
    } else {
      [high, below] = [middle, growth];
      if (last < 0) above /= 2;
    }
    last = growth;
  }
  return high;
}
