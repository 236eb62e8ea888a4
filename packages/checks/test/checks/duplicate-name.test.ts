import { describe, expect, it } from 'vitest';
import { duplicateName } from '../../src/checks/duplicate-name.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = duplicateName;

describe('duplicate-name', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'duplicate-name error @ C2',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('points at the first of the two as well', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toBe('There are two parts called C2.');
    expect(found?.related.map(({ message }) => message)).toEqual(['the first C2']);
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Change to C3']);
  });

  it.each([
    ['another receiver of the file with the same names', readingExample() + readingExample()],
    [
      'a set of two boxes, each stage with its own battery and the same taps',
      readingExample([
        'battery B dry {',
        'radio stage BOX {\n    battery B2 dry {\n      tap B-\n      tap B+45\n    }\n    resistor R9 50 ohms from B- to B+45\n  }\n  battery B dry {',
      ]),
    ],
    [
      'a post marked twice, and a post with the name of a tap',
      readingExample([
        'post GND ground',
        'post GND ground\n  post GND "on the base" ground\n  post B+45',
      ]),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
