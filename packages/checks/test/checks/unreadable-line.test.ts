import { describe, expect, it } from 'vitest';
import { unreadableLine } from '../../src/checks/unreadable-line.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unreadableLine;

describe('unreadable-line', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unreadable-line error @ laek R1 2 meg from V1.grid to A+',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('disturbs no other line', () => {
    const text = readingExample(['leak R1', '%% ?? leak R1']);
    expect(findingsOf(check, text)).toHaveLength(1);
    expect(text).toContain('tube V1');
  });

  it.each([
    ['comments may say anything', readingExample(['leak R1', '// %% ??\n    /* laek */ leak R1'])],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
