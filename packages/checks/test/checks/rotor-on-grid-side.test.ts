import { expect, test } from 'vitest';
import { dialShaftLive } from '../../src/checks/dial-shaft-live.ts';
import { rotorOnGridSide as check } from '../../src/checks/rotor-on-grid-side.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const ends = 'rotor to L1.secondary.finish stator to GND';

test('a rotor on the live side of the coil', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    `rotor-on-grid-side hint @ condenser C1 variable 20 to 500 mmfd ${ends}`,
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'The rotor of C1 is on L1.secondary.finish, the live side of its circuit, and the stator on the quiet one.',
  );
});

test('a rotor on ground', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix exchanges the two names', () => {
  expect(afterFix(check, check.fails)).toBe(sound);
});

test('a series aerial condenser is live on both sides', () => {
  const text = sound
    .replace('to ANT', '')
    .replace(
      'crystal',
      'condenser C3 variable 20 to 500 mmfd rotor to L1.aerial.finish stator to ANT\n  crystal',
    );
  expect(heard(check, text)).toEqual([]);
});

test('a variable of less than 50 mmfd hardly feels the hand', () => {
  expect(heard(check, check.fails.replace('20 to 500', '3 to 25'))).toEqual([]);
});

test('an insulated shaft keeps the hand away', () => {
  expect(heard(check, check.fails.replace(ends, `${ends} insulated`))).toEqual([]);
});

test('where the rotor is not said nothing is known', () => {
  expect(heard(check, check.fails.replace(ends, 'from L1.secondary.finish to GND'))).toEqual([]);
});

test('a rotor that a bypass holds at rest is quiet', () => {
  const text = sound
    .replace('spaced 1 in from GND', 'spaced 1 in')
    .replace(
      'rotor to GND stator to L1.secondary.finish',
      'rotor to L1.secondary.start stator to L1.secondary.finish',
    )
    .replace(
      'crystal CR1',
      'resistor R1 5000 ohms from L1.secondary.start to GND\n  condenser C3 .0005 mfd from L1.secondary.start to GND\n  crystal CR1',
    );
  expect(heard(check, text)).toEqual([]);
});

test('a trimmer is set with a tool', () => {
  expect(heard(check, check.fails.replace('variable', 'trimmer'))).toEqual([]);
});

test('a rotor at plate voltage is another check’s business', () => {
  const text = dialShaftLive.fails.replace(
    'rotor to L2.plate.finish stator to L2.plate.start',
    'rotor to L2.plate.start stator to GND',
  );
  expect(findingsOf(dialShaftLive, text)).toHaveLength(1);
  expect(heard(check, text)).toEqual([]);
});
