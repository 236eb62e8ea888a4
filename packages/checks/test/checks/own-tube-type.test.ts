import { describe, expect, it } from 'vitest';
import { ownTubeType } from '../../src/checks/own-tube-type.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const check = ownTubeType;

describe('own-tube-type', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'own-tube-type hint @ tube type 01-A "as measured on the museum\'s tester"',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('is told once, with the first receiver of the file', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toBe("This description of the 01-A is used in place of the library's.");
  });

  it.each([
    [
      'a type that the library does not have',
      `${readingExample()}tube type 77-Q {\n  filament 5 V .25 A\n}\n`,
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
