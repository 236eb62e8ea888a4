import { expect, test } from 'vitest';
import { screenNotBypassed as check } from '../../src/checks/screen-not-bypassed.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const bypass = '    condenser C2 .5 mfd from V1.screen to V1.filament-\n';

test('a bypass of a few hundred mmfd is too small', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'screen-not-bypassed warning @ tube V1 22',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'The screen of V1 is not at rest for radio at 550 kc: C2 of 200 mmfd is too small to bypass it.',
  );
});

test('half a microfarad serves', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix makes the condenser large enough', () => {
  expect(afterFix(check, check.fails)).toBe(sound);
});

test('a screen straight on a tap with no condenser is not at rest', () => {
  const [finding] = findingsOf(check, sound.replace(bypass, ''));
  expect(finding?.message).toBe(
    'The screen of V1 is not at rest for radio: no condenser leads from it to its filament.',
  );
  expect(finding?.cure).toContain('.1 to .5 mfd from V1.screen to V1.filament-');
});

test('a condenser behind a dropping resistor does not bypass the screen', () => {
  const text = sound
    .replace('screen to B+67', 'screen to R1.start')
    .replace('from V1.screen to V1.filament-', 'from R1.finish to V1.filament-')
    .replace('post ANT', 'resistor R1 20 kilohms to B+67\n  post ANT');
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('one bypass on the tap serves every screen on it', () => {
  expect(heard(check, sound.replace('from V1.screen to V1.filament-', 'from B+67 to GND'))).toEqual(
    [],
  );
});

test('a bypass to either side of the filament serves', () => {
  expect(heard(check, sound.replace('to V1.filament-\n', 'to A+\n'))).toEqual([]);
});

test('a space-charge tube has no screen to be kept at rest', () => {
  const text = sound
    .replace(bypass, '')
    .replace('tap B+67', 'tap B+22 22.5 V\n    tap B+67')
    .replace('grid to L1.grid.finish', 'grid to B+22')
    .replace('screen to B+67', 'screen to L1.grid.finish');
  expect(heard(check, text)).toEqual([]);
});

test('a screen strapped to the plate needs no bypass', () => {
  const text = sound.replace(bypass, '').replace('screen to B+67', 'screen to V1.plate');
  expect(heard(check, text)).toEqual([]);
});

test('a detector or an audio stage does not oscillate for want of it', () => {
  const bare = sound.replace(bypass, '');
  expect(heard(check, bare.replace('radio stage', 'detector stage'))).toEqual([]);
  expect(heard(check, bare.replace('radio stage', 'audio stage'))).toEqual([]);
});

test('a bypass of unknown size is taken as good', () => {
  expect(heard(check, sound.replace('C2 .5 mfd', 'C2'))).toEqual([]);
});

test('a screen with no supply is another check’s business', () => {
  const text = sound.replace(bypass, '').replace('screen to B+67', 'screen to GND');
  expect(heard(check, text)).toEqual([]);
});
