import { describe, expect, it } from 'vitest';
import { joinedTwice } from '../../src/checks/joined-twice.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = joinedTwice;
const before = 'condenser C1 variable';
const withLines = (...lines: string[]) =>
  readingExample([before, `${lines.join('\n  ')}\n  ${before}`]);

describe('joined-twice', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'joined-twice hint @ wire L1.grid.finish to C1.stator',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('names the two ends and points at the other line', () => {
    const [only] = findingsOf(check, check.fails);
    expect(only?.message).toBe('L1.grid.finish and C1.stator are joined here and on another line.');
    expect(only?.related).toHaveLength(1);
    expect(only?.parts).toEqual(['L1.grid', 'C1']);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('the same wire twice on two lines of one place', () => {
    const text = withLines('bus NEG', 'wire A- to NEG', 'wire NEG to A-');
    expect(findingsOf(check, text)).toHaveLength(1);
  });

  it('a wire that is part of a longer chain cannot be taken out whole', () => {
    const text = withLines('bus NEG', 'bus N2', 'wire A- to NEG to N2', 'wire N2 to NEG to A-');
    for (const { fixes } of findingsOf(check, text)) expect(fixes).toEqual([]);
  });

  it.each([
    [
      'a bus restated by its stage',
      readingExample(
        ['condenser C1', 'bus NEG\n  wire NEG to A-\n  condenser C1'],
        ['leak R1', 'wire NEG to A-\n    leak R1'],
      ),
    ],
    [
      'a join that follows from two others',
      withLines('bus NEG', 'wire A- to NEG', 'wire NEG to GND'),
    ],
    [
      'two parts on the same two points',
      withLines('resistor R8 50 ohms from A- to ANT', 'resistor R9 50 ohms from A- to ANT'),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
  });
});
