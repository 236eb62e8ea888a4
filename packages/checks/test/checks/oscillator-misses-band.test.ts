import { expect, test } from 'vitest';
import { oscillatorMissesBand as check } from '../../src/checks/oscillator-misses-band.ts';
import { superheterodyneExample } from '../../src/examples/superheterodyne-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('an oscillator coil of too few turns leaves the long-wave end dead', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'oscillator-misses-band warning @ winding grid 30 turns of 26 DCC from GND',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toContain('it wants 595 kc to 1545 kc');
  expect(finding?.cure).toMatch(/^Make L1\.grid 13\d µH where it has 7\d\.?\d* µH\.$/);
});

test('above the band or below it are both right', () => {
  expect(heard(check, superheterodyneExample({ oscillatorTurns: 44 }))).toEqual([]);
  expect(heard(check, superheterodyneExample({ oscillatorTurns: 52 }))).toEqual([]);
});

test('an oscillator at half the frequency works by its second harmonic', () => {
  const text = edited(superheterodyneExample({ oscillatorTurns: 118 }), [
    'C2 variable 18 to 500',
    'C2 variable 30 to 520',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('with no intermediate frequency known nothing is said', () => {
  const text = check.fails
    .replaceAll('      tuned 45 kc\n', '')
    .replaceAll('12.5 mH 100 ohms', '100 ohms');
  expect(heard(check, text)).toEqual([]);
});

test('where it is not said the intermediate frequency is that of the circuits', () => {
  expect(findingsOf(check, check.fails.replaceAll('      tuned 45 kc\n', ''))).toHaveLength(1);
});

test('a set that does not say what it tunes is not judged, nor an unknown coil', () => {
  expect(heard(check, edited(check.fails, ['  tunes 550 kc to 1500 kc\n', '']))).toEqual([]);
  expect(heard(check, edited(check.fails, ['30 turns of 26 DCC', '30 turns']))).toEqual([]);
});

test('an oscillator that misses by a hair is no fault', () => {
  // It comes down to 602 kc, 1 % above the 595 that are wanted.
  expect(heard(check, superheterodyneExample({ oscillatorTurns: 43 }))).toEqual([]);
});
