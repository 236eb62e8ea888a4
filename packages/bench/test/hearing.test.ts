import { describe, expect, it } from 'vitest';
import type { Symptom } from '../src/faults/fault.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { degreesOf } from '../src/suspects/degrees.ts';
import { hearingLog, loudnessTold } from '../src/suspects/hearing.ts';
import { exampleSet } from './example-set.ts';

const set = (...symptoms: readonly Symptom[]) => new Set(symptoms);

describe('what is told of a set', () => {
  it('is its loudness in one word or another', () => {
    for (const does of [set(), set('weak'), set('faint'), set('silent')])
      expect(loudnessTold(does).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('is most probable of a set that does it', () => {
    for (const told of ['silent', 'weak', 'hums', 'putters', 'chokes on strong'] as const)
      expect(hearingLog(set(told), true, set(told), true)).toBeGreaterThan(
        hearingLog(set(), true, set(told), true) + 1,
      );
  });

  it('may be taken for something near it, more likely than for something far', () => {
    const squeals = set('squeals at short waves');
    expect(hearingLog(squeals, true, set('squeals all over'), true)).toBeGreaterThan(
      hearingLog(set('weak'), true, set('squeals all over'), true),
    );
  });

  it('says nothing where nothing is told and the set was never on', () => {
    expect(hearingLog(set('silent'), true, set(), false)).toBe(0);
    expect(hearingLog(set('silent'), true, set(), true)).toBeLessThan(0);
  });

  it('is weighed alike where what a set does cannot be reckoned', () => {
    expect(hearingLog(set(), false, set('weak'), true)).toBe(
      hearingLog(set(), false, set('silent'), true),
    );
  });
});

describe('how far a fault has gone', () => {
  it('is as the catalogue has it in most cases, and all cases make one', () => {
    for (const fault of faultsOf(exampleSet('five-tube-trf'))) {
      const degrees = degreesOf(fault);
      expect(degrees[0]?.edits).toBe(fault.edits);
      expect(degrees.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    }
  });
});
