import { describe, expect, it } from 'vitest';
import { gridWithoutDcReturn as check } from '../../src/checks/grid-without-dc-return.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const secondary = 'winding secondary 5000 ohms from C- to V2.grid';
const withSecondary = (line: string, ...more: [string, string][]): string =>
  edited(sound, [secondary, line], ...more);
const gridCoil = 'winding grid 240 uH from GND';
/** A set whose second tube is a radio tube ahead of the detector. */
const radio = (coil: string, lines = ''): string =>
  edited(
    sound,
    ['  detector stage DET {', `  radio stage RF1 {${coil}${lines}\n  }\n  detector stage DET {`],
    ['    transformer T1 ratio 1 to 3 {', '    transformer T1 ratio 1 to 3 {'],
  );

describe('a grid floats', () => {
  it('where the C battery is gone and its posts were left open', () => {
    const [found] = findingsOf(check, check.fails);
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'grid-without-dc-return error @ tube V2 01-A',
    ]);
    expect(found?.message).toBe(
      'The grid of V2 floats: its way back ends at the post C-, and nothing joins that to C+.',
    );
    expect(found?.cure).toBe(
      'Strap C- to C+, or join a C battery between them with its negative side to the grid.',
    );
    expect(found?.parts).toEqual(['V2']);
  });

  it('no more once the posts are strapped, which is the fix', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toContain('\n  wire C- to C+\n');
    expect(heard(check, mended)).toEqual([]);
  });

  it('where the posts are called otherwise, and say what they are for', () => {
    const text = edited(
      check.fails,
      ['post C+ "for a C battery"', 'post X1 "C battery, plus"'],
      ['post C- "for a C battery"', 'post X2 "C battery, minus"'],
      ['to GND to C+', 'to GND to X1'],
      ['from C- to V2.grid', 'from X2 to V2.grid'],
    );
    expect(findingsOf(check, text)[0]?.cure).toMatch(/^Strap X2 to X1, or join a C battery/);
  });

  it('where both posts were left open: the other one has to go home too', () => {
    const text = edited(check.fails, ['to GND to C+', 'to GND']);
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Strap C- to C+, or join a C battery between them with its negative side to the grid, and join C+ to A-.',
    );
    expect(heard(check, afterFix(check, text))).toEqual([]);
  });

  it('where there are several posts: the one that leads home is named', () => {
    const text = edited(check.fails, [
      'post C- "for a C battery"',
      'post C-9 "for a C battery"\n  post C- "for a C battery"',
    ]);
    expect(findingsOf(check, text)[0]?.cure).toMatch(/^Strap C- to C\+,/);
  });

  it('where the return lead of a transformer is missing', () => {
    const text = withSecondary('winding secondary 5000 ohms to V2.grid');
    expect(heard(check, text)).toEqual([
      'The grid of V2 floats: nothing leads on from T1.secondary.start.',
    ]);
    expect(findingsOf(check, text)[0]?.cure).toBe('Join T1.secondary.start to A-.');
    expect(heard(check, afterFix(check, text))).toEqual([]);
  });

  it('in an audio stage of a set with a C battery: to the C tap', () => {
    const text = withSecondary('winding secondary 5000 ohms to V2.grid', [
      '  audio stage',
      '  battery G dry {\n    tap G+\n    tap G-4.5 -4.5 V\n    tap G-9 -9 V\n  }\n  wire G+ to A-\n  audio stage',
    ]);
    const [found] = findingsOf(check, text);
    expect(found?.cure).toBe('Join T1.secondary.start to the C tap that V2 wants, G-4.5 or G-9.');
    expect(found?.fixes.map(({ title }) => title)).toEqual([
      'Lead T1.secondary.start to G-4.5',
      'Lead T1.secondary.start to G-9',
    ]);
    expect(heard(check, afterFix(check, text, 1))).toEqual([]);
  });

  it('where only a bypass is left at the cold end of its coil, and that is named', () => {
    const text = withSecondary(
      'winding secondary 5000 ohms to V2.grid\n    }\n    condenser C4 .0005 mfd from T1.secondary.start to A-',
      ['\n    }\n    tube V2', '\n    tube V2'],
    );
    expect(heard(check, text)).toEqual([
      'The grid of V2 floats: C4 blocks direct current and nothing else leads from it to the filament.',
    ]);
    expect(findingsOf(check, text)[0]?.cure).toBe('Join T1.secondary.start to A-; C4 may stay.');
  });

  it('where a leak leads nowhere: to be joined on the side that the type wants', () => {
    const text = edited(sound, ['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg from V1.grid']);
    expect(heard(check, text)).toEqual(['The grid of V1 floats: nothing leads on from R1.finish.']);
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Join R1.finish to A+, the side that the 01-A wants as a detector.',
    );
    const mended = afterFix(check, text);
    expect(mended).toContain('leak R1 2 meg from V1.grid to A+\n');
    expect(heard(check, mended)).toEqual([]);
  });

  it('where a leak lies across the condenser and the coil does not lead home', () => {
    const text = edited(
      sound,
      ['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg across C2'],
      [gridCoil, 'winding grid 240 uH'],
      ['rotor to L1.grid.start stator', 'rotor to GND stator'],
    );
    expect(heard(check, text)).toEqual([
      'The grid of V1 floats: nothing leads on from L1.grid.start.',
    ]);
  });

  it('where the C battery has no lead to the filaments, and the battery is named as a part', () => {
    const text = edited(
      sound,
      [
        '  post C+ "for a C battery"\n  post C- "for a C battery"\n',
        '  battery C dry {\n    tap C+\n    tap C-\n  }\n',
      ],
      [' to C+ to C-', ''],
    );
    const [found] = findingsOf(check, text);
    expect(found?.message).toBe(
      'The grid of V2 floats: its way back ends in battery C, and nothing joins C+ to the filaments.',
    );
    expect(found?.cure).toBe('Join C+ to A-.');
    expect(found?.parts).toEqual(['V2', 'C']);
  });

  it('once for all grids that float on the same wire', () => {
    const second =
      '\n    coil L9 {\n      winding grid 240 uH from GND\n    }\n    tube V9 01-A {\n      filament from RH1 to A+\n      grid to L9.grid.finish\n    }';
    const text = edited(
      radio(second),
      ['wire B- to A- to GND to C+', 'wire B- to A- to C+'],
      ['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg across C2'],
    );
    expect(heard(check, text)).toEqual([
      'The grids of V9 and V1 float: nothing leads on from GND.',
    ]);
  });

  it('in no stage, in a set with a C battery: either may be wanted', () => {
    const text = withSecondary(
      'winding secondary 5000 ohms to V2.grid',
      [
        '  audio stage AF1 {',
        '  battery G dry {\n    tap G+\n    tap G-4.5 -4.5 V\n  }\n  wire G+ to A-',
      ],
      ['from V2.plate to B+90\n  }', 'from V2.plate to B+90'],
    );
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Join T1.secondary.start to A- or G-4.5, as V2 wants.',
    );
  });

  it('where a switch that breaks its return is open in no position that helps', () => {
    const text = withSecondary('winding secondary 5000 ohms from RET to V2.grid', [
      '  audio stage',
      '  bus RET\n  switch S1 open from RET to C8\n  bus C8\n  audio stage',
    ]);
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['error']);
  });
});

describe('a grid has its return', () => {
  const returned = (line: string, ...more: [string, string][]): void => {
    expect(heard(check, withSecondary(line, ...more))).toEqual([]);
  };

  it('through ten megohms', () => {
    expect(heard(check, edited(sound, ['leak R1 2 meg', 'leak R1 10 meg']))).toEqual([]);
  });

  it('through the arm of a potentiometer', () => {
    returned('winding secondary 5000 ohms from P1.arm to V2.grid', [
      '  audio stage',
      '  potentiometer P1 400 ohms from A- to A+\n  audio stage',
    ]);
  });

  it('through a C battery', () => {
    returned('winding secondary 5000 ohms from C-4.5 to V2.grid', [
      '  audio stage',
      '  battery C dry {\n    tap C+4 0 V\n    tap C-4.5\n  }\n  wire C+4 to A-\n  audio stage',
    ]);
  });

  it('through a choke, phones or another coil', () => {
    for (const part of [
      'choke CH1 30 H',
      'phones PH2 2000 ohms',
      'variometer VM1 100 uH to 400 uH',
    ])
      returned('winding secondary 5000 ohms from RET to V2.grid', [
        '  audio stage',
        `  bus RET\n  ${part} from RET to A-\n  audio stage`,
      ]);
  });

  it('through the audio secondary of a reflex stage', () => {
    expect(
      heard(
        check,
        edited(
          sound,
          [gridCoil, 'winding grid 240 uH from T1.secondary.finish'],
          ['rotor to L1.grid.start', 'rotor to GND'],
          [secondary, 'winding secondary 5000 ohms from C-'],
          ['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg across C2'],
          ['filament from RH2 to A+', 'filament from RH2 to A+\n      grid to T1.secondary.finish'],
        ),
      ),
    ).toEqual([]);
  });

  it('through a loop, drawn or not', () => {
    const loop = (part: string): string =>
      edited(
        sound,
        [
          '    coil L1 {\n      winding aerial 20 uH from GND to ANT\n      winding grid 240 uH from GND\n    }\n',
          `    post LP1 loop\n    post LP2 loop\n    wire LP2 to A-\n${part}`,
        ],
        ['rotor to L1.grid.start stator to L1.grid.finish', 'rotor to LP2 stator to LP1'],
        ['from L1.grid.finish to V1.grid', 'from LP1 to V1.grid'],
        ['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg across C2'],
      );
    expect(heard(check, loop('    loop LOOP 180 uH from LP2 to LP1\n'))).toEqual([]);
    expect(heard(check, loop(''))).toEqual([]);
  });

  it('or needs none: grid and plate strapped make a diode', () => {
    const text = edited(
      sound,
      [secondary, 'winding secondary 5000 ohms from C-'],
      ['filament from RH2 to A+', 'filament from RH2 to A+\n      grid to V2.plate'],
      ['from V2.plate to B+90', 'from V2.plate to T1.secondary.finish'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('and where it hangs on its condenser alone, that has a check of its own', () => {
    const text = edited(sound, ['    leak R1 2 meg from V1.grid to A+\n', '']);
    expect(heard(check, text)).toEqual([]);
  });

  it('and a grid that nothing is wired to has another fault', () => {
    expect(heard(check, withSecondary('winding secondary 5000 ohms from C-'))).toEqual([]);
  });

  it('and a tube whose filament nothing is wired to has another fault', () => {
    const text = edited(
      sound,
      [' to C+ to C-', ' to C+'],
      ['tube V2 01-A {\n      filament from RH2 to A+\n    }', 'tube V2 01-A'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('at another position of a switch: information, with the position', () => {
    const text = withSecondary('winding secondary 5000 ohms from RET to V2.grid', [
      '  audio stage',
      '  bus RET\n  selector S1 from RET to POST9, C- set 1\n  post POST9\n  audio stage',
    ]);
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: there is a way with S1 at C-.');
  });
});
