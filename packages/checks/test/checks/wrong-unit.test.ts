import { describe, expect, it } from 'vitest';
import { wrongUnit } from '../../src/checks/wrong-unit.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = wrongUnit;

describe('wrong-unit', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual(['wrong-unit error @ 2 mfd']);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it.each([
    [
      'units in the spellings of the time',
      readingExample(
        ['C2 .00025 mfd', 'C2 .00025 MF'],
        ['C3 .001 mfd', 'C3 1000 MMF'],
        ['PH1 2000 ohms', 'PH1 2000 ohms 20 MHY'],
      ),
    ],
    [
      'waves in meters, capacity in centimeters, British gauge',
      readingExample(
        ['550 kc to 1500 kc', '200 to 545 meters'],
        ['C2 .00025 mfd', 'C2 225 cm'],
        ['46 turns of 24 DCC', '46 turns of 24 swg DCC'],
      ),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
