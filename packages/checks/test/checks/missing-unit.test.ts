import { describe, expect, it } from 'vitest';
import { missingUnit } from '../../src/checks/missing-unit.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = missingUnit;

describe('missing-unit', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual(['missing-unit error @ 2']);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it.each([
    [
      'ratios, turns, taps and numbers of dials',
      readingExample([
        'condenser C1',
        'dial D1 0 to 100 drives C1\n  transformer T9 ratio 1 to 3.5 {\n    winding primary 3000\n    winding secondary 10500\n  }\n  condenser C1',
      ]),
    ],
    [
      'a unit lent to both ends of a range',
      readingExample(['550 kc to 1500 kc', '200 to 545 meters']),
    ],
    ['a tap with its volts in its name', readingExample(['tap B+45 45 V', 'tap B+45'])],
    [
      'the stud of a selector',
      readingExample([
        'condenser C1',
        'selector S1 from ANT to L1.aerial.finish, GND set 2\n  condenser C1',
      ]),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
