import { describe, expect, it } from 'vitest';
import { exampleSet } from './example-set.ts';
import { randomFrom } from './repair/random.ts';
import { drawnByCommonness, repairOf, tallyOf, workshopFor } from './repair/repairing.ts';

/**
 * A few of the repairs that `npm run repair` simulates, with faults drawn as common as they are.
 * The figures of all of them are in test/bench/repair-figures.txt.
 */
const SETS = [
  ['two-tube', 30],
  ['five-tube-trf', 20],
] as const;
const SEED = 1926;

describe('simulated repairs, six readings each as the tool advises', () => {
  const repairs = SETS.flatMap(([name, count]) => {
    const workshop = workshopFor(exampleSet(name));
    const random = randomFrom(SEED);
    return Array.from({ length: count }, (_, at) =>
      repairOf(workshop, drawnByCommonness(workshop, random), SEED + at),
    );
  });
  const missed = (rank: number) =>
    repairs.filter((each) => each.rank >= rank).map(({ cause, done }) => [cause.id, ...done]);

  it('find the true fault, or one alike to it, first in 85 of 100', () => {
    expect(tallyOf(repairs).first, JSON.stringify(missed(1), null, 1)).toBeGreaterThanOrEqual(0.85);
  });

  it('and among the first three in 95 of 100', () => {
    expect(tallyOf(repairs).firstThree, JSON.stringify(missed(3), null, 1)).toBeGreaterThanOrEqual(
      0.95,
    );
  });
});
