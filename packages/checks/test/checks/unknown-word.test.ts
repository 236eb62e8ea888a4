import { describe, expect, it } from 'vitest';
import { unknownWord } from '../../src/checks/unknown-word.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unknownWord;

describe('unknown-word', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual(['unknown-word error @ frm']);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('says what may be meant', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.cure).toBe('Did you mean "from"?');
    expect(found?.parts).toEqual(['R1']);
  });

  it.each([
    [
      'titles, notes and comments may say anything',
      readingExample([
        'leak R1 2 meg',
        '// frm here\n    note "frm there"\n    leak R1 "frm" 2 meg',
      ]),
    ],
    [
      'words that lead one statement may be names in another',
      readingExample(['post GND ground', 'post GND ground\n  bus open\n  bus change']),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
