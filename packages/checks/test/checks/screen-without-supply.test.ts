import { expect, test } from 'vitest';
import { screenWithoutSupply as check } from '../../src/checks/screen-without-supply.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const messageOf = (text: string) => findingsOf(check, text)[0]?.message;
const sound = check.passes;

test('a screen on ground has no supply', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'screen-without-supply error @ tube V1 22',
  ]);
  expect(messageOf(check.fails)).toBe(
    'The screen of V1 has no supply: it is on GND, and nothing leads from there to a positive tap.',
  );
});

test('a screen on a tap is fed', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix joins it to the tap that the type is published with', () => {
  expect(afterFix(check, check.fails)).toBe(sound);
});

test('a screen behind nothing but a condenser is dead, and the condenser is named', () => {
  const text = sound
    .replace('      screen to B+67\n', '')
    .replace('.5 mfd from B+67 to V1.filament-', '.5 mfd from B+67 to V1.screen');
  expect(messageOf(text)).toBe(
    'The screen of V1 has no supply: C2 blocks direct current and nothing else leads from it to a positive tap.',
  );
});

test('a screen that nothing is joined to is dead', () => {
  expect(messageOf(sound.replace('      screen to B+67\n', ''))).toBe(
    'The screen of V1 has no supply: nothing is joined to it.',
  );
});

test('a screen that only a bleeder could feed stands at the filament', () => {
  const text = sound
    .replace('screen to B+67', 'screen to SG')
    .replace('post GND ground', 'post GND ground\n  bus SG\n  wire SG to V1.filament+')
    .replace('post ANT', 'resistor R1 20 kilohms from B+67 to SG\n  post ANT');
  expect(messageOf(text)).toMatch(/^The screen of V1 stands at 3\.\d+ V from its filament/);
});

test('a screen above its plate is as bad', () => {
  const text = sound
    .replace('screen to B+67', 'screen to B+135')
    .replace('DSC to B+135', 'DSC to B+67');
  expect(messageOf(text)).toMatch(
    /^The screen of V1 stands at 13\d V, above its plate at 6\d.* V\.$/,
  );
  expect(findingsOf(check, text)[0]?.severity).toBe('error');
});

test('a switch that takes the screen off as drawn is information', () => {
  const text = sound
    .replace('screen to B+67', 'screen to SG')
    .replace('post GND', 'bus SG\n  selector S2 from SG to GND, B+67 set GND\n  post GND');
  const [finding] = findingsOf(check, text);
  expect(finding?.severity).toBe('information');
  expect(finding?.cure).toContain('S2 at B+67');
});

test('a screen strapped to the plate makes a triode', () => {
  expect(heard(check, sound.replace('screen to B+67', 'screen to V1.plate'))).toEqual([]);
});

test('a space-charge tube has the signal on the outer grid', () => {
  const text = sound
    .replace('tap B+67', 'tap B+22 22.5 V\n    tap B+67')
    .replace('grid to L1.grid.finish', 'grid to B+22')
    .replace('screen to B+67', 'screen to L1.grid.finish');
  expect(heard(check, text)).toEqual([]);
});

test('a dropping resistor may come from a higher tap than the plate', () => {
  const text = sound
    .replace('screen to B+67', 'screen to R1.finish')
    .replace('post ANT', 'resistor R1 100 kilohms from B+135\n  post ANT')
    .replace('DSC to B+135', 'DSC to B+67');
  expect(heard(check, text)).toEqual([]);
});

test('a pentode may have its screen above its plate', () => {
  const text = sound
    .replace('tap A+ 6 V', 'tap A+ 2 V')
    .replace('tube V1 22', 'tube V1 33')
    .replace('screen to B+67', 'screen to B+135')
    .replace('DSC to B+135', 'DSC to B+67');
  expect(heard(check, text)).toEqual([]);
});

test('where grid and screen are exchanged another check speaks', () => {
  const text = sound
    .replace('grid to L1.grid.finish', 'grid to B+67')
    .replace('screen to B+67', 'screen to L1.grid.finish');
  expect(heard(check, text)).toEqual([]);
});

test('where no plate supply is written down nothing is known', () => {
  const text = check.fails.replace(/ {2}battery B[^}]*}\n/, '').replaceAll(/B[-+]\w*/g, 'GND');
  expect(heard(check, text)).toEqual([]);
});
