import { expect, test } from 'vitest';
import { neutralizingSense as check } from '../../src/checks/neutralizing-sense.ts';
import { neutralizedExample } from '../../src/examples/neutralized-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

test('a plate winding turned end for end feeds the grid the same sign twice', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'neutralizing-sense warning @ condenser CN1 neutralizing 2 to 15 mmfd from V1.grid to L2.grid.tap7',
  ]);
  expect(findingsOf(check, check.fails)[0]?.parts).toEqual(['CN1', 'L2.plate']);
});

test('the fix exchanges the ends of the plate winding', () => {
  expect(heard(check, afterFix(check, check.fails))).toEqual([]);
});

test('a winding wound the other way round does the same', () => {
  const text = edited(check.passes, [
    'over grid at start from V1',
    'over grid at start reversed from V1',
  ]);
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('reversed and turned end for end is right again', () => {
  const text = edited(check.fails, [
    'over grid at start from B+67',
    'over grid at start reversed from B+67',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('the condenser on its own tube’s plate adds to the mischief', () => {
  const [finding] = findingsOf(check, neutralizedExample({ from: 'V1.plate' }));
  expect(finding?.message).toBe('CN1 leads from the grid of V1 to its own plate.');
});

test('balanced from the top of the next grid winding is right too', () => {
  expect(heard(check, neutralizedExample({ from: 'L2.grid.finish' }))).toEqual([]);
});

test('a coil that is not known well enough is not judged', () => {
  expect(heard(check, check.fails.replaceAll('form 3 in', ''))).toEqual([]);
});

test('a bridge with the grid coil split in two is another circuit', () => {
  const text = edited(
    check.fails,
    ['from V1.grid to L2.grid.tap7', 'from V1.plate to L1.grid.start'],
    [
      'winding grid 51 turns of 26 DCC from GND\n      winding aerial',
      'winding grid 51 turns of 26 DCC tap 25 to GND\n      winding aerial',
    ],
    [
      'C1 variable 15 to 365 mmfd rotor to GND',
      'C1 variable 15 to 365 mmfd rotor to L1.grid.start',
    ],
  );
  expect(heard(check, text)).toEqual([]);
});
