import { expect, test } from 'vitest';
import { gridRadioReturn as check } from '../../src/checks/grid-radio-return.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { trfExample } from '../../src/examples/trf-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

/** The rotors on the coils' own ends instead of the filament bus. */
const closed = (text: string): string =>
  edited(
    text,
    [
      'C1 variable 14 to 365 mmfd rotor to NEG',
      'C1 variable 14 to 365 mmfd rotor to L1.grid.start',
    ],
    [
      'C2 variable 14 to 365 mmfd rotor to NEG',
      'C2 variable 14 to 365 mmfd rotor to L2.grid.start',
    ],
  );

test('two tuned circuits closed through one C battery: one finding names both', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'grid-radio-return warning @ winding grid 56 turns of 26 DCC beside aerial from C-1.5',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toMatch(
    /^The tuned circuit of L1\.grid and C1 closes only through C: 31 ohms at 550 kc, against 80\d ohms of the loop, and stages share it\.$/,
  );
  expect(finding?.parts).toEqual(['L1.grid', 'V1', 'L2.grid', 'V2']);
  expect(finding?.cure).toBe('Put a condenser of .5 mfd from C-1.5 to V1.filament-.');
});

test('a bypass at the return end closes them', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('a resistor inside the loop is too much for one stage as well', () => {
  const text = edited(
    trfExample({ returnLines: 'bus RET\n  resistor R9 2000 ohms from RET to NEG' }),
    ['beside aerial from NEG', 'beside aerial from RET'],
  );
  expect(findingsOf(check, text)[0]?.cure).toBe(
    'Put a condenser of .002 to .5 mfd from RET to V1.filament-.',
  );
  const bypassed = edited(text, [
    '  bus RET',
    '  condenser C9 .002 mfd from RET to NEG\n  bus RET',
  ]);
  expect(heard(check, bypassed)).toEqual([]);
});

test('a coil that its leak alone leads home wants its own return, not a bypass', () => {
  const text = edited(
    regenerativeExample({}),
    ['spaced 1/4 in from NEG', 'spaced 1/4 in'],
    ['rotor to NEG stator', 'rotor to L1.grid.start stator'],
  );
  const [only, ...more] = findingsOf(check, text);
  expect(more).toEqual([]);
  expect(only?.message).toMatch(/^The grid circuit of V1 gets home only through R1: 2 megohms/);
  expect(only?.cure).toBe('Join L1.grid.start to V1.filament-.');
});

test('a rotor on the coil’s return end closes the circuit by itself', () => {
  expect(heard(check, closed(check.fails))).toEqual([]);
});

test('a way of little impedance for one stage is no fault', () => {
  const text = edited(trfExample({}), ['beside aerial from NEG', 'beside aerial from C-1.5']);
  expect(heard(check, text)).toEqual([]);
});

test('a rheostat in the filament lead is a lead', () => {
  const text = edited(
    trfExample({}),
    ['rheostat RH1 20 ohms from A+ set 4 ohms', 'rheostat RH1 20 ohms from NEG set 4 ohms'],
    ['filament from NEG to RH1', 'filament from RH1 to A+'],
  );
  expect(heard(check, text)).toEqual([]);
});

const reflex = (bypass: string): string =>
  closed(
    edited(
      trfExample({ returnLines: bypass }),
      ['radio stage RF1', 'radio audio stage RF1'],
      ['beside aerial from NEG', 'beside aerial from T9.secondary.finish'],
      [
        '  detector stage DET',
        `  transformer T9 ratio 1 to 3 {
    winding primary 14 H 800 ohms from V3.plate to B+45
    winding secondary 5000 ohms from C-1.5
  }
  detector stage DET`,
      ],
      ['    phones PH1 2000 ohms from V3.plate to B+45\n', ''],
    ),
  );

test('a reflex stage without its bypass is dead, with .00025 mfd it is not', () => {
  const [finding] = findingsOf(check, reflex(''));
  expect(finding?.message).toMatch(/^The grid circuit of V1 gets home only through T9\.secondary/);
  expect(finding?.why).toContain('dead');
  expect(heard(check, reflex('condenser C9 .00025 mfd from T9.secondary.finish to NEG'))).toEqual(
    [],
  );
});

test('a coil or a part in the way of which not enough is said is not judged', () => {
  const text = edited(trfExample({ returnLines: 'bus RET\n  resistor R9 from RET to NEG' }), [
    'beside aerial from NEG',
    'beside aerial from RET',
  ]);
  expect(heard(check, text)).toEqual([]);
  expect(heard(check, check.fails.replaceAll('56 turns of 26 DCC', '56 turns'))).toEqual([]);
});

test('a bypass that a switch puts in makes it information', () => {
  const text = edited(check.passes, [
    'condenser C7 .5 mfd from C-1.5 to NEG',
    'bus SW\n  switch S9 from SW to NEG open\n  condenser C7 .5 mfd from C-1.5 to SW',
  ]);
  expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
});
