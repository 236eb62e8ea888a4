import { describe, expect, it } from 'vitest';
import { unknownTubeType } from '../../src/checks/unknown-tube-type.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unknownTubeType;

describe('unknown-tube-type', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unknown-tube-type hint @ UX-201-B',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it.each([
    ['a tube without a type', readingExample(['tube V1 01-A', 'tube V1'])],
    ['small letters and no hyphen', readingExample(['tube V1 01-A', 'tube V1 01a'])],
    [
      'a type that the file describes',
      `${readingExample(['tube V1 01-A', 'tube V1 77-Q'])}tube type 77-Q {\n  filament 5 V .25 A\n}\n`,
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
