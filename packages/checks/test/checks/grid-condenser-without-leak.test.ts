import { describe, expect, it } from 'vitest';
import { gridCondenserWithoutLeak as check } from '../../src/checks/grid-condenser-without-leak.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const leak = 'leak R1 2 meg from V1.grid to A+';
const withLeak = (line: string): string => edited(sound, [leak, line]);

describe('a grid condenser without a leak', () => {
  it('leaves the grid floating', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual([
      'grid-condenser-without-leak error @ tube V1 01-A',
    ]);
    expect(findings[0]?.message).toBe('The grid of V1 hangs on C2 and has no leak.');
    expect(findings[0]?.cure).toBe(
      'Put a leak of 2 megohms from V1.grid to A+, the side that the 01-A wants as a detector.',
    );
    expect(findings[0]?.parts).toEqual(['V1', 'C2']);
  });

  it('is cured by the leak that the fix adds', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toContain('\n    leak R1 2 meg from V1.grid to A+\n');
    expect(heard(check, mended)).toEqual([]);
  });

  it('with the leak put on the coil’s side: that one is to be moved', () => {
    const [found] = findingsOf(check, withLeak('leak R1 2 meg from L1.grid.finish to A+'));
    expect(found?.cure).toBe(
      "Put R1 on the grid's side of C2: from V1.grid to A+, the side that the 01-A wants as a detector.",
    );
    expect(found?.fixes).toEqual([]);
  });

  it('with a stopper between the condenser and the grid', () => {
    const text = edited(
      check.fails,
      ['from L1.grid.finish to V1.grid', 'from L1.grid.finish to R8.start'],
      ['    tube V1', '    resistor R8 500 ohms to V1.grid\n    tube V1'],
    );
    expect(heard(check, text)).toEqual(['The grid of V1 hangs on C2 and has no leak.']);
  });

  it('in an amplifier coupled by a condenser: a leak to the negative side', () => {
    const text = edited(check.fails, ['detector stage DET', 'audio stage DET']);
    expect(findingsOf(check, text)[0]?.cure).toBe('Put a leak of 1 megohm from V1.grid to A-.');
  });

  it('of a heater tube: the leak goes to the cathode', () => {
    const text = edited(
      check.fails,
      [
        'tube V1 01-A {\n      filament from RH1 to A+',
        'tube V1 27 {\n      heater from A- to A+\n      cathode to A-',
      ],
      ['tap A+ 6 V', 'tap A+ 2.5 V'],
    );
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Put a leak of 2 megohms from V1.grid to V1.cathode.',
    );
  });

  it('is information in a set of 1923, which relied on gas and poor insulation', () => {
    const text = edited(check.fails, ['"Cove Punt" {', '"Cove Punt" {\n  year 1923']);
    expect(findingsOf(check, text)[0]?.severity).toBe('information');
    expect(findingsOf(check, edited(text, ['year 1923', 'year 1924']))[0]?.severity).toBe('error');
  });

  it('is information with a soft tube', () => {
    const text = edited(check.fails, ['tube V1 01-A', 'tube V1 00-A']);
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.message).toBe(
      'The grid of V1 hangs on C2 and has no leak, and relies on the gas in the 00-A.',
    );
  });

  it('is information where a switch puts the leak in', () => {
    const text = edited(sound, [
      leak,
      'leak R1 2 meg from V1.grid\n    selector S1 from R1.finish to BLANK, A+ set 1\n    bus BLANK',
    ]);
    // The leak ends at an open contact: that is a return broken, and no leak missing.
    expect(heard(check, text)).toEqual([]);
    const whole = edited(sound, [
      leak,
      'selector S1 from V1.grid to BLANK, R1.start set 1\n    bus BLANK\n    leak R1 2 meg to A+',
    ]);
    expect(findingsOf(check, whole).map(({ severity }) => severity)).toEqual(['information']);
  });
});

describe('a grid condenser is content', () => {
  it('with any other way for direct current, by any name', () => {
    for (const line of [
      'resistor R1 1 meg from V1.grid to A+',
      'choke CH1 100 H from V1.grid to A-',
      'potentiometer P1 500 kilohms from V1.grid to A- arm to A-',
    ])
      expect(heard(check, withLeak(line))).toEqual([]);
  });

  it('with a leak across it and a coil that leads home', () => {
    expect(heard(check, withLeak('leak R1 2 meg across C2'))).toEqual([]);
  });

  it('in series with the aerial, where no grid hangs on it', () => {
    const text = edited(
      sound,
      ['winding aerial 20 uH from GND to ANT', 'winding aerial 20 uH from GND'],
      ['    tube V1', '    condenser C9 .00025 mfd from ANT to L1.aerial.finish\n    tube V1'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where a coil leads nowhere, which is another fault', () => {
    const text = edited(
      sound,
      [leak, 'leak R1 2 meg across C2'],
      ['winding grid 240 uH from GND', 'winding grid 240 uH'],
      ['rotor to L1.grid.start', 'rotor to GND'],
    );
    expect(heard(check, text)).toEqual([]);
  });
});
