import type { ModeOff } from './modes-off.ts';
import type { ComplexFrequency } from './tuned-system.ts';

/** Shares of the frequency that every dial is turned off the station by, in the search. */
const OFFSETS: readonly number[] = [-0.035, -0.02, -0.01, -0.004, 0, 0.004, 0.01, 0.02, 0.035];

/** The dials turned so that the set is nearest to oscillating, or oscillates fastest. */
export interface WorstTuning {
  /** Share of the frequency that each shaft is off by, in their order. */
  readonly offsets: readonly number[];
  /** Its fastest mode near the station; undefined where none is found. */
  readonly mode: ComplexFrequency | undefined;
}

/** Seeds of the first search over all dials at once: each low, right or high. */
const COARSE: readonly number[] = [-0.01, 0, 0.01];

/** Combinations that are tried at first, at most. */
const MOST_SEEDS = 81;

/** Shafts that are searched by themselves, at most. */
const MOST_SHAFTS = 8;

/** Share of a growth by which another must be faster: a dial that does nothing stays in tune. */
const CLEAR = 1e-7;

/** Rounds over all shafts. */
const ROUNDS = 3;

/**
 * The worst tuning about a station: every shaft a little low, right or high in all combinations,
 * then from the worst of those each by itself over all offsets, round after round. A shaft that
 * makes no difference is left in tune.
 *
 * @param count of shafts @param modeOff the fastest mode with the shafts off by so many shares
 */
export function worstTuning(count: number, modeOff: ModeOff): WorstTuning {
  const known = new Map<string, WorstTuning>();
  const at = (offsets: readonly number[]): WorstTuning => {
    const key = offsets.join(' ');
    const found = known.get(key) ?? { offsets, mode: modeOff(offsets) };
    known.set(key, found);
    return found;
  };
  let best = at(Array.from({ length: count }, () => 0));
  for (const offsets of combinations(count)) best = worse(at(offsets), best);
  const shafts = Array.from({ length: Math.min(count, MOST_SHAFTS) }, (_, shaft) => shaft);
  const withOne = (shaft: number, offset: number): WorstTuning =>
    at(best.offsets.map((each, other) => (other === shaft ? offset : each)));
  for (let round = 0; round < ROUNDS; round++) {
    const before = best;
    for (const shaft of shafts)
      for (const offset of OFFSETS) best = worse(withOne(shaft, offset), best);
    if (best === before) break;
  }
  for (const shaft of shafts) {
    const inTune = withOne(shaft, 0);
    if (worse(best, inTune) === inTune) best = inTune;
  }
  return best;
}

/** The first of two where it is clearly worse, else the second. */
function worse(one: WorstTuning, other: WorstTuning): WorstTuning {
  return isFaster(one.mode, other.mode) ? one : other;
}

function isFaster(one: ComplexFrequency | undefined, other: ComplexFrequency | undefined): boolean {
  if (!one || !other) return one !== undefined;
  return one.growth - other.growth > CLEAR * Math.abs(one.growth);
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
