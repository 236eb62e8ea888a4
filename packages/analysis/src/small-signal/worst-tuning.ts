import type { Alignment, TunedSet } from './aligned-at.ts';
import { findRoot } from './root-search.ts';
import { mistuned, type Shaft } from './shafts.ts';
import {
  type ComplexFrequency,
  type SignalSystem,
  type Tuning,
  tunedSystem,
} from './signal-system.ts';

/** Shares of the frequency that every dial is turned off the station by, in the search. */
const OFFSETS: readonly number[] = [-0.035, -0.02, -0.01, -0.004, 0, 0.004, 0.01, 0.02, 0.035];

/** The dials turned so that the set is nearest to oscillating, or oscillates fastest. */
export interface WorstTuning {
  /** Share of the frequency that each shaft is off by, in their order. */
  readonly offsets: readonly number[];
  /** Nepers per second of its fastest mode near the station; negative for one that dies. */
  readonly growth: number;
}

/** Seeds of the first search over all dials at once: each low, right or high. */
const COARSE: readonly number[] = [-0.01, 0, 0.01];

/** Combinations that are tried at first, at most. */
const MOST_SEEDS = 81;

/** Shafts that are searched by themselves, at most. */
const MOST_SHAFTS = 8;

/** Rounds over all shafts. */
const ROUNDS = 3;

/**
 * The worst tuning about a station: every shaft a little low, right or high in all combinations,
 * then from the worst of those each by itself over all offsets, round after round.
 *
 * @param ohms resistances of series pieces instead of what they are
 * @param feedback capacities besides the tuning, by the name of the piece
 */
export function worstTuning(
  system: SignalSystem,
  tuned: TunedSet,
  shafts: readonly Shaft[],
  alignment: Alignment,
  ohms: ReadonlyMap<string, number> = new Map(),
  feedback: Tuning = new Map(),
): WorstTuning {
  const growthAt = (offsets: readonly number[]): number =>
    growthOff(system, tuned, shafts, alignment, offsets, ohms, feedback);
  let best: WorstTuning = {
    offsets: shafts.map(() => 0),
    growth: growthAt(shafts.map(() => 0)),
  };
  const consider = (offsets: readonly number[]): void => {
    const growth = growthAt(offsets);
    if (growth > best.growth) best = { offsets, growth };
  };
  for (const offsets of combinations(shafts.length)) consider(offsets);
  for (let round = 0; round < ROUNDS; round++) {
    const before = best.growth;
    for (const shaft of shafts.slice(0, MOST_SHAFTS).keys())
      for (const offset of OFFSETS)
        if (offset !== best.offsets[shaft])
          consider(best.offsets.map((each, at) => (at === shaft ? offset : each)));
    if (best.growth === before) break;
  }
  return best;
}

/**
 * Growth of the fastest mode near a station, nepers per second, with the shafts off by these
 * shares; negative for one that dies, minus infinity where none is found.
 *
 * @param feedback capacities besides the tuning, by the name of the piece
 */
export function growthOff(
  system: SignalSystem,
  tuned: TunedSet,
  shafts: readonly Shaft[],
  alignment: Alignment,
  offsets: readonly number[],
  ohms: ReadonlyMap<string, number>,
  feedback: Tuning = new Map(),
): number {
  const tuning = new Map([...mistuned(tuned, shafts, alignment, offsets), ...feedback]);
  const detuned = tuned.circuits.map((_, at) => {
    const shaft = shafts.findIndex(({ circuits }) => circuits.includes(at));
    return offsets[shaft] ?? 0;
  });
  return fastest(tunedSystem(system, tuning, ohms), alignment.frequency, detuned);
}

function* combinations(count: number): Generator<readonly number[]> {
  const total = Math.min(MOST_SEEDS, COARSE.length ** count);
  for (let number = 0; number < total; number++) {
    let rest = number;
    yield Array.from({ length: count }, () => {
      const each = COARSE[rest % COARSE.length] as number;
      rest = Math.floor(rest / COARSE.length);
      return each;
    });
  }
}

/** Damping that the search for a circuit's own mode starts from: that of a Q of sixty. */
const DAMPING = 1 / 120;

/** Modes further from the station than this share of it are none of its circuits. */
const NEAR = 0.4;

/** Growth of the fastest mode near a station, starting from each of its circuits. */
function fastest(
  tuned: ReturnType<typeof tunedSystem>,
  frequency: number,
  offsets: readonly number[],
): number {
  const found: ComplexFrequency[] = [];
  let most = Number.NEGATIVE_INFINITY;
  for (const offset of offsets) {
    const radians = 2 * Math.PI * frequency * (1 + offset);
    const root = findRoot(tuned, { growth: 0 - DAMPING * radians, radians }, found);
    if (!root) continue;
    found.push(root);
    const isNear = Math.abs(root.radians / (2 * Math.PI * frequency) - 1) < NEAR;
    if (isNear) most = Math.max(most, root.growth);
  }
  return most;
}
