import { describe, expect, it } from 'vitest';
import type { Symptom } from '../src/faults/fault.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { degreesOf } from '../src/suspects/degrees.ts';
import { clickTold, dialTold, hearingLog, loudnessTold } from '../src/suspects/hearing.ts';
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

describe('what is told of a tap on a grid', () => {
  const sum = (shares: object): number =>
    Object.values(shares).reduce((all, each) => all + each, 0);

  it('is one word or another, whatever its loudness', () => {
    for (const louder of [0, -6, -20, -34, -80, Number.NEGATIVE_INFINITY, 12])
      expect(sum(clickTold(louder))).toBeCloseTo(1, 12);
  });

  it('is most probably what it is', () => {
    expect(clickTold(0).heard).toBeGreaterThan(0.85);
    expect(clickTold(-18).faint).toBeGreaterThan(0.8);
    expect(clickTold(Number.NEGATIVE_INFINITY).silent).toBeCloseTo(0.95, 6);
  });

  it('may be either of two words at the border between them', () => {
    const { heard, faint } = clickTold(-6);
    expect(Math.abs(heard - faint)).toBeLessThan(0.1);
  });

  it('is of a dial as sharp as it is, or nothing where it does nothing', () => {
    for (const left of [0, 0.3, 0.55, 1]) expect(sum(dialTold(left, false))).toBeCloseTo(1, 12);
    expect(dialTold(1, false).stands).toBeGreaterThan(0.85);
    expect(dialTold(0.2, false).broad).toBeGreaterThan(0.8);
    expect(dialTold(0.2, true)['no effect']).toBeGreaterThan(0.85);
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
