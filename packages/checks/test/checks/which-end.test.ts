import { describe, expect, it } from 'vitest';
import { whichEnd } from '../../src/checks/which-end.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = whichEnd;

describe('which-end', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual(['which-end error @ C1']);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it.each([
    [
      'the free end of a part whose other end is spoken for',
      readingExample([
        'resistor R2 "filament resistor" 4 ohms from A-',
        'resistor R2 4 ohms\n  wire A- to R2.start',
      ]),
    ],
    [
      'posts, taps, arms and shields are one point',
      readingExample([
        'condenser C1',
        'potentiometer P1 400 ohms across A arm to GND\n  shield SH1 around L1\n  wire SH1 to GND\n  condenser C1',
      ]),
    ],
    [
      'the filament of a tube named alone',
      readingExample([
        'condenser C3 .001 mfd from V1.plate to GND',
        'condenser C3 .001 mfd from V1.plate to V1.filament',
      ]),
    ],
    [
      'a coil with one winding',
      readingExample([
        'condenser C1',
        'coil L9 {\n    winding only 5 turns from GND\n  }\n  wire ANT to L9.finish\n  condenser C1',
      ]),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
