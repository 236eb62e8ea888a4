import { expect, test } from 'vitest';
import { dampedTank as check } from '../../src/checks/damped-tank.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a losser between coil and condenser leaves a Q of two', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'damped-tank warning @ resistor R1 600 ohms from L1.grid.finish',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toMatch(
    /^R1 of 600 ohms stands inside the tuned circuit of L1\.grid and leaves it a Q of 2\.\d at 90\d kc\.$/,
  );
});

test('between the circuit and the grid it damps on purpose', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('a resistor that leaves a Q of ten is bearable', () => {
  expect(heard(check, edited(check.fails, ['600 ohms', '110 ohms']))).toEqual([]);
});

test('a rheostat inside is a volume control', () => {
  expect(heard(check, edited(check.fails, ['resistor R1', 'rheostat R1']))).toEqual([]);
});

test('a resistor in the aerial’s lead is in no tuned circuit of the set', () => {
  const text = edited(
    check.passes,
    ['from GND to ANT', 'from GND to R9.finish'],
    ['    resistor R1', '    resistor R9 600 ohms from ANT\n    resistor R1'],
  );
  expect(heard(check, text)).toEqual([]);
});

test('intermediate transformers are broad on purpose', () => {
  const text = edited(check.fails, ['detector stage', 'intermediate stage']);
  expect(heard(check, text)).toEqual([]);
});

test('a coil of which not enough is said is not judged', () => {
  expect(heard(check, edited(check.fails, ['56 turns of 26 DCC', '56 turns']))).toEqual([]);
});
