import { describe, expect, it } from 'vitest';
import { exampleSet } from '../example-set.ts';
import { repairOf, tallyOf, workshopFor } from './repairing.ts';

/** Every so many faults of a set are tried; the seed of each is its place in the catalogue. */
const EVERY = 5;

describe('a repair as the tool advises, with the errors of meter, parts and ear', () => {
  // Held a little under what was found, so that a loss shows: over all examples 82 % of 359
  // repairs found the fault first and 87 % among the first three, with other seeds.
  it.each([
    ['reflex', 0.75, 0.8],
    ['two-tube', 0.75, 0.8],
  ] as const)('%s: finds the fault within six readings', (name, first, firstThree) => {
    const workshop = workshopFor(exampleSet(name));
    const tried = workshop.causes.filter((_, index) => index % EVERY === 0);
    expect(tried.length).toBeGreaterThan(15);
    const repairs = tried.map((cause, index) => repairOf(workshop, cause, 7919 * index + 17));
    const tally = tallyOf(repairs);
    const missed = repairs
      .filter(({ rank }) => rank > 2)
      .map(({ cause, rank }) => [cause.id, rank]);
    expect(tally.first, JSON.stringify(missed)).toBeGreaterThanOrEqual(first);
    expect(tally.firstThree, JSON.stringify(missed)).toBeGreaterThanOrEqual(firstThree);
    for (const { done } of repairs) expect(done.length).toBeLessThanOrEqual(6);
  });
});
