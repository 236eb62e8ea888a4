import { beforeAll, describe, expect, it } from 'vitest';
import { exampleSet } from './example-set.ts';
import { randomFrom } from './repair/random.ts';
import {
  drawnByCommonness,
  READINGS,
  type Repair,
  repairOf,
  tallyOf,
  workshopFor,
} from './repair/repairing.ts';

/**
 * A few of the repairs that `npm run repair` simulates, with faults drawn as common as they are.
 * The figures of all of them are in test/bench/repair-figures.txt.
 */
const SETS = [
  ['two-tube', 20],
  ['reflex', 20],
  ['one-tube-regenerative', 20],
] as const;
const SEED = 1926;

describe(`simulated repairs, six readings each as the tool advises (seed ${SEED})`, () => {
  let repairs: readonly Repair[] = [];
  beforeAll(() => {
    repairs = SETS.flatMap(([name, count]) => {
      const workshop = workshopFor(exampleSet(name));
      const random = randomFrom(SEED);
      return Array.from({ length: count }, (_, at) =>
        repairOf(workshop, drawnByCommonness(workshop, random), SEED + at),
      );
    });
  });
  /** The repairs that ended with the true fault further down, for a test that fails. */
  const missed = (rank: number): string =>
    JSON.stringify(
      repairs
        .filter((each) => each.rank >= rank)
        .map(({ cause, heard, readings }) => [cause.id, ...heard, ...readings]),
      null,
      1,
    );

  it('read the meter six times at the most, clicks and dials not counted', () => {
    const metered = repairs.map(
      ({ readings }) => readings.filter((line) => line.startsWith('reading ')).length,
    );
    expect(Math.max(...metered)).toBe(READINGS);
  });

  it('find the true fault, or one alike to it, first in 85 of 100', () => {
    expect(tallyOf(repairs).first, missed(1)).toBeGreaterThanOrEqual(0.85);
  });

  it('and among the first three in 95 of 100', () => {
    expect(tallyOf(repairs).firstThree, missed(3)).toBeGreaterThanOrEqual(0.95);
  });

  it('are the same again with the same seed', () => {
    const workshop = workshopFor(exampleSet('reflex'));
    const cause = drawnByCommonness(workshop, randomFrom(SEED));
    const [once, again] = [1, 2].map(() => repairOf(workshop, cause, SEED));
    expect(again?.readings).toEqual(once?.readings);
  });
});
