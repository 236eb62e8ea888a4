import { describe, expect, it } from 'vitest';
import { gridBiasedPositive as check } from '../../src/checks/grid-biased-positive.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const returned = (to: string, ...more: [string, string][]): string =>
  edited(sound, ['from C-4.5 to V2.grid', `from ${to} to V2.grid`], ...more);
const cell = (volts: number): [string, string] => [
  '  battery C dry',
  `  battery K dry {\n    tap K- 0 V\n    tap K+ ${volts} V\n  }\n  wire K- to A-\n  battery C dry`,
];
const divider = (upper: string, lower: string): [string, string] => [
  '  audio stage',
  `  bus RET\n  resistor R8 ${upper} from A+ to RET\n  resistor R9 ${lower} from RET to A-\n  audio stage`,
];

describe('an amplifier’s grid is positive', () => {
  it('returned behind another tube’s rheostat: a volt, a warning', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual(['grid-biased-positive warning @ tube V2 01-A']);
    expect(findings[0]?.message).toBe(
      'The grid of V2 stands 1 V above its filament: it returns to RH1.finish.',
    );
    expect(findings[0]?.parts).toEqual(['V2']);
  });

  it('by half the filament battery: an error', () => {
    const findings = findingsOf(check, returned('RET', divider('400 ohms', '400 ohms')));
    expect(findings.map(({ severity, message }) => `${severity}: ${message}`)).toEqual([
      'error: The grid of V2 stands 3 V above its filament: it stands between A+ and A-.',
    ]);
  });

  it('by a C battery put in backwards, which is named and is one of the parts', () => {
    const [found] = findingsOf(check, returned('K+', cell(4.5)));
    expect(found?.severity).toBe('error');
    expect(found?.message).toBe(
      'The grid of V2 stands 4.5 V above its filament: it returns to K+ by way of battery K.',
    );
    expect(found?.parts).toEqual(['V2', 'K']);
  });

  it('within the travel of a potentiometer: information, with the range', () => {
    const text = returned('P1.arm', [
      '  audio stage',
      '  potentiometer P1 400 ohms from A- to A+ set 60 %\n  audio stage',
    ]);
    const findings = findingsOf(check, text);
    expect(told(text, findings)).toEqual([
      'grid-biased-positive information @ potentiometer P1 400 ohms from A- to A+ set 60 %',
    ]);
    expect(findings[0]?.message).toBe(
      'P1 sets the grid of V2 anywhere from 0 V to 6 V from the filament, where each draws about 1 mA of grid current.',
    );
  });
});

describe('a grid is not too positive', () => {
  it('as a detector by grid leak, or a mixer or oscillator', () => {
    // The detector of the fixture itself returns to A+ through its leak.
    expect(heard(check, sound)).toEqual([]);
    for (const role of ['detector', 'mixer', 'oscillator'])
      expect(heard(check, edited(check.fails, ['audio stage', `${role} stage`]))).toEqual([]);
  });

  it('at three tenths of a volt', () => {
    expect(heard(check, returned('RET', divider('950 ohms', '50 ohms')))).toEqual([]);
  });

  it('while it draws less than 10 microamperes', () => {
    expect(heard(check, returned('RET', divider('920 ohms', '80 ohms')))).toEqual([]);
    expect(heard(check, returned('RET', divider('1.7 meg', '.3 meg')))).toEqual([]);
  });

  it('at A-, with its own rheostat in the negative lead: that makes it negative', () => {
    const text = returned(
      'A-',
      ['rheostat RH2 20 ohms from A+', 'rheostat RH2 20 ohms from A-'],
      ['filament from A- to RH2', 'filament from RH2 to A+'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('at A-, with its rheostat in the positive lead: that is zero', () => {
    expect(heard(check, returned('A-'))).toEqual([]);
  });

  it('as the inner grid of a space-charge tube', () => {
    const text = returned(
      'A-',
      cell(9),
      ['to V2.grid', 'to V2.screen'],
      ['tube V2 01-A {', 'tube V2 22 {\n      grid to K+'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where the plate current lifts the cathode', () => {
    const text = returned(
      'A+',
      [
        'tube V2 01-A {\n      filament from A- to RH2',
        'tube V2 27 {\n      heater from A- to RH2',
      ],
      ['    phones PH1', '    resistor R7 2000 ohms from V2.cathode to A-\n    phones PH1'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where the volts are not known', () => {
    expect(heard(check, returned('K+', cell(4.5), ['tap K+ 4.5 V', 'tap K+']))).toEqual([]);
  });
});
