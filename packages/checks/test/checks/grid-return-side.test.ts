import { describe, expect, it } from 'vitest';
import { gridReturnSide as check } from '../../src/checks/grid-return-side.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const leak = 'leak R1 2 meg from V1.grid to A+';
const withLeak = (line: string): string => edited(sound, [leak, line]);
/** The same set with an audio stage behind it, whose grid returns as said. */
const audio = (gridReturn: string, more = '', filament = 'RH2 to A+'): string =>
  edited(
    sound,
    ['    tap B+45 45 V\n', '    tap B+45 45 V\n    tap B+90 90 V\n'],
    [
      'phones PH1 2000 ohms from V1.plate to B+45',
      `transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from ${gridReturn} to V2.grid
    }`,
    ],
    [
      '    condenser C3 .001 mfd from V1.plate to A-\n  }\n',
      `    condenser C3 .001 mfd from V1.plate to A-
  }
  rheostat RH2 20 ohms from A- set 4 ohms
  audio stage AF1 {
    tube V2 01-A {
      filament from ${filament}
    }
    phones PH1 2000 ohms from V2.plate to B+90
${more}  }
`,
    ],
  );

describe('a grid-leak detector on the wrong side', () => {
  it('of a hard tube: the negative, and the type’s own data are quoted', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual([
      'grid-return-side warning @ leak R1 2 meg from V1.grid to A-',
    ]);
    expect(findings[0]?.message).toBe(
      'The grid of V1 returns to A-, but the 01-A as a detector wants it on A+.',
    );
    expect(findings[0]?.cure).toBe(
      'Put R1 from V1.grid to A+ (data of the 01-A: return to A+, leak 2 megohms to 9 megohms).',
    );
    expect(findings[0]?.parts).toEqual(['V1', 'R1']);
  });

  it('is cured by leading the leak to the other side, which is the fix', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toBe(sound);
    expect(heard(check, mended)).toEqual([]);
  });

  it('of a gas tube: the positive', () => {
    const text = edited(sound, ['tube V1 01-A', 'tube V1 00-A']);
    expect(heard(check, text)).toEqual([
      'The grid of V1 returns to A+, but the 00-A as a detector wants it on A-.',
    ]);
    expect(afterFix(check, text)).toContain('from V1.grid to A-');
    expect(heard(check, afterFix(check, text))).toEqual([]);
  });

  it('with the leak across its condenser: by the side that the coil returns to', () => {
    const text = withLeak('leak R1 2 meg across C2');
    expect(heard(check, text)).toEqual([
      'The grid of V1 returns, by R1 across C2 and the coil behind it, to A-, but the 01-A as a detector wants it on A+.',
    ]);
    expect(findingsOf(check, text)[0]?.fixes).toEqual([]);
  });

  it('where the leak goes to its own filament terminal, behind the rheostat', () => {
    // 0 volts instead of -1: still 4 decibels short of the positive side.
    expect(heard(check, withLeak('leak R1 2 meg from V1.grid to V1.filament-'))).toHaveLength(1);
  });

  it('of a heater tube: the heater, instead of the cathode', () => {
    const text = edited(
      sound,
      [
        'tube V1 01-A {\n      filament from RH1',
        'tube V1 27 {\n      cathode to A-\n      heater from A-',
      ],
      ['  rheostat RH1 20 ohms from A- set 4 ohms\n', ''],
      ['tap A+ 6 V', 'tap A+ 2.5 V'],
    );
    expect(heard(check, text)).toEqual([
      'The grid of V1 returns to A+, but the 27 as a detector wants it on V1.cathode.',
    ]);
    expect(heard(check, afterFix(check, text))).toEqual([]);
  });

  it('whatever the battery switch does: off cures nothing', () => {
    const text = edited(
      check.fails,
      [
        'wire B- to A- to GND',
        'wire B- to A- to GND\n  switch S1 from A- to NEG closed\n  bus NEG',
      ],
      ['rheostat RH1 20 ohms from A-', 'rheostat RH1 20 ohms from NEG'],
      ['leak R1 2 meg from V1.grid to A-', 'leak R1 2 meg from V1.grid to NEG'],
    );
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['warning']);
  });

  it('in no stage at all, where a coil feeds its grid condenser', () => {
    const text = edited(
      check.fails,
      ['  detector stage DET {\n', ''],
      ['from V1.plate to A-\n  }\n}', 'from V1.plate to A-\n}'],
    );
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['warning']);
  });

  it('as drawn, where a switch leads it to the right one: information', () => {
    const text = withLeak(
      'leak R1 2 meg from V1.grid\n    selector S1 from R1.finish to A-, A+ set 1',
    );
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: it is otherwise with S1 at A+.');
  });
});

describe('a detector is on a good side', () => {
  it('at the arm of a potentiometer, which reaches both', () => {
    const text = edited(
      sound,
      [
        leak,
        'leak R1 2 meg across C2\n    potentiometer P1 400 ohms from A- to A+ arm to RET\n    bus RET',
      ],
      ['winding grid 240 uH from GND', 'winding grid 240 uH from RET'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('behind a rheostat in the positive lead', () => {
    const text = edited(sound, [
      'filament from RH1 to A+',
      'filament from RH1 to RH2\n    }\n    rheostat RH2 6 ohms from A+ set 0 ohms\n    coil L9 {\n      winding only 20 uH',
    ]);
    expect(
      heard(check, edited(text, [leak, 'leak R1 2 meg from V1.grid to V1.filament+'])),
    ).toEqual([]);
    expect(heard(check, text)).toEqual([]);
  });

  it('whichever it is, where the type’s data do not say', () => {
    expect(heard(check, edited(check.fails, ['tube V1 01-A', 'tube V1 26']))).toEqual([]);
  });

  it('returned through a C battery: it works by bias', () => {
    const text = edited(
      sound,
      [leak, 'leak R1 2 meg across C2'],
      [
        '  post ANT aerial',
        '  battery C dry {\n    tap C+\n    tap C-4.5\n  }\n  wire C+ to A-\n  post ANT aerial',
      ],
      ['winding grid 240 uH from GND', 'winding grid 240 uH from C-4.5'],
      ['rotor to L1.grid.start', 'rotor to GND'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('with the leak across the condenser and the coil on the positive side', () => {
    const text = edited(
      sound,
      [leak, 'leak R1 2 meg across C2'],
      ['winding grid 240 uH from GND', 'winding grid 240 uH from A+'],
      ['rotor to L1.grid.start', 'rotor to GND'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where it rectifies within 3 decibels as well: 9 megohms to its own F-', () => {
    expect(heard(check, withLeak('leak R1 9 meg from V1.grid to V1.filament-'))).toEqual([]);
  });
});

describe('an amplifier on the positive side', () => {
  it('is an error: its grid stands as far above its filament as the battery reaches', () => {
    const text = audio('A+');
    const findings = findingsOf(check, text);
    expect(told(text, findings)).toEqual([
      'grid-return-side error @ winding secondary 5000 ohms from A+ to V2.grid',
    ]);
    expect(findings[0]?.message).toBe(
      'The grid of V2 returns to A+, the positive side, 5 V above its filament.',
    );
    expect(findings[0]?.cure).toBe('Lead T1.secondary.start to A-, or to the C tap that V2 wants.');
  });

  it('is cured by leading the return to the negative side, which is the fix', () => {
    const mended = afterFix(check, audio('A+'));
    expect(mended).toBe(audio('A-'));
    expect(heard(check, mended)).toEqual([]);
  });

  it('but not at the arm of a potentiometer', () => {
    expect(
      heard(check, audio('P1.arm', '    potentiometer P1 400 ohms from A- to A+ set 90 %\n')),
    ).toEqual([]);
  });

  it('nor through 100 kilohms or more', () => {
    expect(
      heard(check, audio('RET', '    bus RET\n    resistor R9 100 kilohms from RET to A+\n')),
    ).toEqual([]);
    expect(
      heard(check, audio('RET', '    bus RET\n    resistor R9 50 kilohms from RET to A+\n')),
    ).toHaveLength(1);
  });

  it('nor through a C battery that makes up for it', () => {
    const cell = '    battery C dry {\n      tap C+\n      tap C-9\n    }\n    wire C+ to A+\n';
    expect(heard(check, audio('C-9', cell))).toEqual([]);
  });

  it('nor on the filament of its neighbour in a series string', () => {
    const text = edited(
      audio('V1.filament-', '', 'A- to V1.filament-'),
      ['filament from RH1 to A+', 'filament to RH1'],
      ['rheostat RH1 20 ohms from A- set 4 ohms', 'rheostat RH1 20 ohms from A+ set 4 ohms'],
      ['    tap A+ 6 V', '    tap A+ 12 V'],
      ['  rheostat RH2 20 ohms from A- set 4 ohms\n', ''],
      [leak, 'leak R1 2 meg from V1.grid to V1.filament+'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('nor when it is an oscillator', () => {
    expect(heard(check, edited(audio('A+'), ['audio stage', 'oscillator stage']))).toEqual([]);
  });
});
