import { describe, expect, it } from 'vitest';
import { ownPattern } from '../../src/checks/own-pattern.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const check = ownPattern;

describe('own-pattern', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'own-pattern hint @ BYPASS',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('names both, and points at them', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toBe(
      'C4 is made like the BYPASS of this set, not like the pattern of that name.',
    );
    expect(found?.related.map(({ message }) => message)).toEqual([
      'the BYPASS of this set',
      'the pattern BYPASS',
    ]);
  });

  it.each([
    ['a part like the pattern of its own name', ['.001 mfd', 'like C3']],
    ['two things of one name that nothing is made like', ['C3 .001', 'C3 .002']],
  ] as const)('is silent: %s', (_, change) => {
    const text = `condenser C3 .001 mfd\n${readingExample(change)}`;
    expect(heard(check, text)).toEqual([]);
  });
});
