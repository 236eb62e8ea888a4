import { describe, expect, it } from 'vitest';
import { controlShortsBattery } from '../../src/checks/control-shorts-battery.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(controlShortsBattery, text));

describe('a control that shorts a battery at the end of its travel', () => {
  it('is a potentiometer with arm and end exchanged', () => {
    const text = controlShortsBattery.fails;
    expect(say(text)).toEqual([
      'control-shorts-battery error @ potentiometer P1 400 ohms from NEG to RET arm to A+',
    ]);
    expect(heard(controlShortsBattery, text)).toEqual([
      'P1 shorts A with its arm at the start: A- and A+, 6 V apart, meet there with nothing in the way.',
    ]);
    expect(findingsOf(controlShortsBattery, text)[0]?.parts).toEqual(['P1', 'A']);
  });

  it('is cured by exchanging them', () => {
    const after = afterFix(controlShortsBattery, controlShortsBattery.fails);
    expect(after).toContain('potentiometer P1 400 ohms from NEG to A+ arm to RET');
    expect(heard(controlShortsBattery, after)).toEqual([]);
    expect(heard(controlShortsBattery, controlShortsBattery.passes)).toEqual([]);
  });

  it('is a rheostat straight across', () => {
    const text = filamentSet('storage 6 V', 'rheostat RH1 20 ohms from NEG to A+ set 10 ohms');
    expect(heard(controlShortsBattery, text)).toEqual([
      'RH1 shorts A with its resistance all out: A- and A+, 6 V apart, meet there with nothing in the way.',
    ]);
  });

  it('is one with a resistor in the way that is too small to help', () => {
    const text = filamentSet(
      'storage 6 V',
      'resistor R1 1 ohms from NEG to P1.start',
      'potentiometer P1 400 ohms arm to A+',
    );
    expect(heard(controlShortsBattery, text)[0]).toContain('meet there with 1 ohm in the way');
  });

  it('is one whose way leads over the arm of another that is not set', () => {
    // P2 with its arm at the start: from NEG over the arm to A+ nothing is in the way of RH1.
    const text = filamentSet(
      'storage 6 V',
      'bus MID',
      'rheostat RH1 20 ohms from NEG to MID',
      'potentiometer P2 400 ohms from MID to RET arm to A+',
      'bus RET',
      'leak R1 2 meg from RET to V1.grid',
      'tube V1 01-A',
    );
    expect(heard(controlShortsBattery, text)[0]).toMatch(/^RH1 shorts A .* nothing in the way\.$/);
  });

  it('is found at the position of a switch that lets it', () => {
    const text = filamentSet(
      'storage 6 V',
      'bus TEST',
      'switch S2 from TEST to A+ open',
      'rheostat RH1 20 ohms from NEG to TEST set 10 ohms',
    );
    expect(heard(controlShortsBattery, text)[0]).toContain('with its resistance all out, with S2');
  });

  it('is found though another line cannot be read', () => {
    expect(controlShortsBattery.needsWholeText).toBe(false);
  });
});

describe('a control is safe', () => {
  it('with a tube or a lamp in the way', () => {
    const tube = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    const lamp = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG',
      'lamp LA1 6 V .15 A from RH1 to A+',
    );
    expect(heard(controlShortsBattery, tube)).toEqual([]);
    expect(heard(controlShortsBattery, lamp)).toEqual([]);
  });

  it('with a tenth of its own ohms in series that cannot be turned down', () => {
    const text = filamentSet(
      'storage 6 V',
      'resistor R1 50 ohms from NEG to P1.start',
      'potentiometer P1 400 ohms arm to A+',
    );
    expect(heard(controlShortsBattery, text)).toEqual([]);
  });

  it('where what is in series keeps the current to its rating', () => {
    const text = (rating: string) =>
      filamentSet(
        'storage 6 V',
        'resistor R1 6 ohms from NEG to RH1.start',
        `rheostat RH1 100 ohms ${rating} to A+`,
      );
    expect(heard(controlShortsBattery, text('1.5 A'))).toEqual([]);
    expect(heard(controlShortsBattery, text('.5 A'))).toHaveLength(1);
  });

  it('before a stabilizer that is not set: between its ends lies the whole of it', () => {
    const text = (setting: string) =>
      filamentSet(
        'storage 6 V',
        'rheostat RH1 10 ohms from A+ set 5 ohms',
        `potentiometer P1 400 ohms across V1.filament arm to RET ${setting}`,
        'bus RET',
        'leak R1 2 meg from RET to V1.grid',
        'tube V1 01-A { filament from NEG to RH1 }',
      );
    expect(heard(controlShortsBattery, text(''))).toEqual([]);
    expect(heard(controlShortsBattery, text('set 50 %'))).toEqual([]);
  });

  it('as a stabilizer with its two ends across the battery, or a bias control across C', () => {
    const text = filamentSet(
      'storage 6 V',
      'battery C dry {',
      '  tap C+',
      '  tap C-9',
      '}',
      'wire C+ to NEG',
      'bus RET',
      'potentiometer P1 400 ohms from NEG to A+ arm to RET',
      'potentiometer P2 10 kilohms from C-9 to C+ arm to T1.secondary.start',
      'transformer T1 ratio 1 to 3 {',
      '  winding primary 800 ohms',
      '  winding secondary 5000 ohms',
      '}',
    );
    expect(heard(controlShortsBattery, text)).toEqual([]);
  });
});
