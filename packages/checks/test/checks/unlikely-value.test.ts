import { describe, expect, it } from 'vitest';
import { unlikelyValue } from '../../src/checks/unlikely-value.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unlikelyValue;
const found = (was: string, is: string) => {
  const text = readingExample([was, is]);
  return told(text, findingsOf(check, text));
};

describe('unlikely-value', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unlikely-value warning @ .0025 mfd',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('says what the part is for, and what such parts have', () => {
    expect(findingsOf(check, check.fails)[0]?.message).toBe(
      'C2, the grid condenser of V1, has .0025 mfd; grid condensers have 50 to 500 mmfd.',
    );
  });

  it.each([
    ['a grid condenser with a zero lost', 'C2 .00025 mfd', 'C2 .0025 mfd', '.00025 mfd'],
    ['a grid condenser in the wrong unit', 'C2 .00025 mfd', 'C2 250 mfd', '250 mmfd'],
    ['a leak of twenty megohms', 'R1 2 meg', 'R1 20 meg', '2 meg'],
    ['a leak in kilohms', 'R1 2 meg', 'R1 2 k', '2 megohms'],
    ['a radio bypass too small', 'C3 .001 mfd', 'C3 .0001 mfd', '.001 mfd'],
    ['a radio bypass too large', 'C3 .001 mfd', 'C3 2 mfd', '0.2 mfd'],
    ['a variable condenser in mfd', '20 to 500 mmfd', '20 to 500 mfd', '500 mmfd'],
    ['a tuned winding in mH', '46 turns', '240 mH 46 turns', '240 uH'],
    ['phones of so many megohms', 'PH1 2000 ohms', 'PH1 2000 meg', '2000 ohms'],
    ['a year of two figures', 'year 1925', 'year 25', '1925'],
    ['meters taken for kilocycles', '550 kc to 1500 kc', '200 to 545 kc', '200 to 545 meters'],
    ['kilocycles taken for meters', '550 kc to 1500 kc', '550 to 1500 meters', '550 to 1500 kc'],
    ['two units in one band', '550 kc to 1500 kc', '550 kc to 1500 meters', '550 to 1500 kc'],
  ])('%s, with a fix', (_, was, is, mended) => {
    const text = readingExample([was, is]);
    expect(findingsOf(check, text)).toHaveLength(1);
    const after = afterFix(check, text);
    expect(after).toContain(mended);
    expect(findingsOf(check, after)).toEqual([]);
  });

  it.each([
    ['46 turns of 24 DCC', '46 turns of 240 DCC', 'of 240 DCC'],
    ['46 turns of 24 DCC', '46 turns of 24 DCC tap 60', '60'],
    ['form 3 in', 'form 30 ft', '30 ft'],
    ['leak R1 2 meg', 'leak R1 0 meg', '0 meg'],
    ['aerial 250 mmfd', 'aerial 250 mfd', '250 mfd'],
    ['battery B dry {', 'battery B dry {\n    resistance 30 megohms', '30 megohms'],
  ])('%s as %s', (was, is, place) => {
    expect(found(was, is)).toEqual([`unlikely-value warning @ ${place}`]);
  });

  it('a grid stopper runs from 50 to 3000 ohms', () => {
    const stopper = (ohms: string) =>
      `
receiver "Stopper" {
  battery A storage {
    tap A-
    tap A+ 6 V
  }
  radio stage RF {
    loop LP1 180 uH from A- to R1.start
    resistor R1 ${ohms} from LP1.finish to V1.grid
    tube V1 01-A {
      filament from A- to A+
    }
  }
}
`;
    expect(heard(check, stopper('600 ohms'))).toEqual([]);
    expect(heard(check, stopper('60000 ohms'))).toHaveLength(1);
    expect(heard(check, stopper('6 ohms'))).toHaveLength(1);
  });

  it('a control is set within its travel', () => {
    expect(
      found('condenser C1', 'rheostat RX 10 ohms from A- to ANT set 20 ohms\n  condenser C1'),
    ).toEqual(['unlikely-value warning @ set 20 ohms']);
    expect(
      found('condenser C1', 'rheostat RX 10 ohms from A- to ANT set 140 %\n  condenser C1'),
    ).toEqual(['unlikely-value warning @ set 140 %']);
  });

  it.each([
    ['the ends of what a leak may have', 'R1 2 meg', 'R1 10 meg'],
    ['the ends of what a leak may have', 'R1 2 meg', 'R1 .25 meg'],
    ['a grid condenser of .00005', 'C2 .00025 mfd', 'C2 .00005 mfd'],
    ['a capacity in centimeters', 'C2 .00025 mfd', 'C2 225 cm'],
    ['a coil of three turns', 'aerial 10 turns', 'aerial 3 turns'],
    ['22.5 volts of B', 'tap B+45 45 V', 'tap B+45 22.5 V'],
    ['a one-ohm resistor', 'filament resistor" 4 ohms', 'filament resistor" 1 ohms'],
    ['a band of 1924', '550 kc to 1500 kc', '222 to 545 meters'],
    ['a tickler turned past right angles', '46 turns', '46 turns set -30 %'],
  ])('is silent: %s', (_, was, is) => {
    expect(heard(check, readingExample([was, is]))).toEqual([]);
  });

  it('is silent: the coupling condenser and grid resistor of an audio stage', () => {
    const text = `
receiver "Coupling" {
  battery A storage {
    tap A-
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  wire B- to A-
  audio stage AF {
    resistor R1 .1 meg from B+90 to C1.start
    condenser C1 .006 mfd from R1.finish to V1.grid
    leak R2 .1 meg from V1.grid to A-
    tube V1 01-A {
      filament from A- to A+
    }
    condenser C2 4 mfd from B+90 to A-
  }
}
`;
    expect(heard(check, text)).toEqual([]);
  });
});
