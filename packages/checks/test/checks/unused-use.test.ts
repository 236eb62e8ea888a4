import { describe, expect, it } from 'vitest';
import { unusedUse } from '../../src/checks/unused-use.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unusedUse;

describe('unused-use', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unused-use hint @ use "parts/not-there.receiver"',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the fix takes the second line out, and leaves the first', () => {
    const text = afterFix(check, check.fails);
    expect(text).toBe(`use "parts/not-there.receiver"\n\n${readingExample()}`);
    expect(findingsOf(check, text)).toEqual([]);
  });

  it('is silent: a file that cannot be read may hold what is wanted', () => {
    expect(findingsOf(check, `use "parts/not-there.receiver"\n${readingExample()}`)).toEqual([]);
    expect(heard(check, readingExample())).toEqual([]);
  });
});
