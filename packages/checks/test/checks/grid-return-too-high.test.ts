import { expect, test } from 'vitest';
import { gridReturnTooHigh as check } from '../../src/checks/grid-return-too-high.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const leak = 'leak R2 5 meg from V2.grid to C-4.5';

test('five megohms in an amplifier’s grid', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    `grid-return-too-high information @ ${leak}`,
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe('The grid of V2 returns through 5 megohms, most of it R2.');
  expect(finding?.cure).toBe(
    'Use 2 megohms for R2, and C3 of 0.025 mfd in place of 0.01 mfd to keep the low notes.',
  );
  expect(finding?.parts).toEqual(['V2', 'R2']);
});

test('one megohm', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix lowers the leak', () => {
  const cured = afterFix(check, check.fails);
  expect(cured).toContain('leak R2 2 meg from');
  expect(heard(check, cured)).toEqual([]);
});

test('a power tube bears less', () => {
  const text = sound.replace('1 meg', '2 meg').replace('tube V2 01-A', 'tube V2 71-A');
  const [finding] = findingsOf(check, text);
  expect(finding?.severity).toBe('information');
  expect(finding?.cure).toMatch(/^Use 0\.5 megohms for R2/);
  expect(heard(check, afterFix(check, text))).toEqual([]);
});

test('a detector’s leak is meant to be high, and an oscillator’s', () => {
  expect(heard(check, check.fails.replace('output stage', 'detector stage'))).toEqual([]);
  expect(heard(check, check.fails.replace('output stage', 'oscillator stage'))).toEqual([]);
});

test('a tube in no stage may be anything', () => {
  const text = check.fails.replace('output stage AF2 {', '').replace(/ {2}\}\n\}\n$/, '}\n');
  expect(heard(check, text)).toEqual([]);
});

test('a leak of unknown size', () => {
  expect(heard(check, check.fails.replace('R2 5 meg', 'R2'))).toEqual([]);
});

test('a grid with no return at all is another check’s business', () => {
  expect(heard(check, check.fails.replace(`    ${leak}\n`, ''))).toEqual([]);
});

test('a high resistance beside a lower path', () => {
  const text = check.fails.replace(leak, `${leak}\n    leak R3 .5 meg from V2.grid to C-4.5`);
  expect(heard(check, text)).toEqual([]);
});
