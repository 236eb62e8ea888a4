import { describe, expect, it } from 'vitest';
import { resistorOverDissipation as check } from '../../src/checks/resistor-over-dissipation.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

describe('a resistor that has to give off too much heat', () => {
  it('is told at its own line, with its heat', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'resistor-over-dissipation warning @ resistor R2 "bleeder" 10 kilohms 1/2 W from B+135 to A-',
    ]);
    expect(saidOf(check, check.fails)).toEqual([
      'warning: R2 carries 13 mA: that is 1.8 W of heat, and it is rated for 0.5 W.',
    ]);
    expect(findingsOf(check, check.fails)[0]?.cure).toBe('Use a resistor of 3.6 W or more for R2.');
  });

  it('is a potentiometer of which a part carries all, though the whole is well rated', () => {
    const text = check.fails.replace(
      'resistor R2 "bleeder" 10 kilohms 1/2 W from B+135 to A-',
      'potentiometer P1 10 kilohms 1 W arm to B+135 set 90 %\n  wire P1.finish to A-',
    );
    expect(saidOf(check, text)[0]).toMatch(
      /^warning: P1 carries 0\.13 A: its wire is rated for 10 mA\.$/,
    );
  });

  it('is information where only the worst travel of a rheostat does it', () => {
    const text = check.passes.replace(
      'resistor F3 4 ohms from A+ to V3.filament+',
      'resistor F3 1 ohms .065 W from A+ to RH3.start\n  rheostat RH3 10 ohms to V3.filament+ set 3 ohms',
    );
    expect(saidOf(check, text)).toEqual([
      'information: F3 would carry 0.28 A with the rheostats full on: that is 81 mW of heat, and it is rated for 65 mW.',
    ]);
  });

  it('is information within a tenth of its rating', () => {
    const text = check.fails.replace('1/2 W', '1.75 W');
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
  });
});

describe('a resistor that bears its heat', () => {
  it('is one with enough watts', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is one of which no rating is stated, leaks above all', () => {
    expect(silent(check, check.fails, [' 1/2 W', ''])).toEqual([]);
  });

  it('is not judged by a resistance that is not stated', () => {
    const text = check.fails.replace(
      'from B+135 to A-',
      'from B+135 to R8.start\n  resistor R8 to A-',
    );
    expect(silent(check, text)).toEqual([]);
  });
});
