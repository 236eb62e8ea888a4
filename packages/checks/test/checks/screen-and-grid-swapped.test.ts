import { expect, test } from 'vitest';
import { screenAndGridSwapped as check } from '../../src/checks/screen-and-grid-swapped.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;

test('cap and socket grid exchanged', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'screen-and-grid-swapped error @ tube V1 22',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe('V1 has L1.grid on its screen and B+67 on its control grid.');
  expect(finding?.parts).toEqual(['V1']);
});

test('the right way about', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix exchanges the two names', () => {
  expect(afterFix(check, check.fails)).toBe(sound);
});

test('joins said by the other parts are exchanged there', () => {
  const text = check.fails
    .replace('      grid to B+67\n      screen to L1.grid.finish\n', '')
    .replace(
      'post ANT',
      'resistor R1 600 ohms from L1.grid.finish to V1.screen\n  resistor R2 1000 ohms from B+67 to V1.grid\n  post ANT',
    );
  expect(findingsOf(check, text)).toHaveLength(1);
  const cured = afterFix(check, text);
  expect(cured).toContain('R1 600 ohms from L1.grid.finish to V1.grid');
  expect(cured).toContain('R2 1000 ohms from B+67 to V1.screen');
  expect(heard(check, cured)).toEqual([]);
});

test('joins said by wires are left to a person', () => {
  const text = check.fails
    .replace('      grid to B+67\n      screen to L1.grid.finish\n', '')
    .replace('post ANT', 'wire V1.grid to B+67\n  wire V1.screen to L1.grid.finish\n  post ANT');
  expect(findingsOf(check, text)).toHaveLength(1);
  expect(findingsOf(check, text)[0]?.fixes).toEqual([]);
});

test('a space-charge tube is wired so on purpose', () => {
  const text = check.fails
    .replace('tap B+67', 'tap B+22 22.5 V\n    tap B+67')
    .replace('grid to B+67', 'grid to B+22');
  expect(heard(check, text)).toEqual([]);
});

test('a screen strapped to the plate makes a triode', () => {
  const text = sound.replace('screen to B+67', 'screen to V1.plate');
  expect(heard(check, text)).toEqual([]);
});

test('a grid coupled straight to a plate has its own screen on a tap', () => {
  const text = sound
    .replace('grid to L1.grid.finish', 'grid to R1.finish')
    .replace('post ANT', 'resistor R1 50 kilohms from B+135\n  post ANT');
  expect(heard(check, text)).toEqual([]);
});

test('a screen that is grounded is another check’s business', () => {
  expect(heard(check, sound.replace('screen to B+67', 'screen to GND'))).toEqual([]);
});
