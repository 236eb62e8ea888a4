import { expect, test } from 'vitest';
import { ticklerBypassed as check } from '../../src/checks/tickler-bypassed.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

test('a bypass on the plate side takes the radio current past the tickler', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'tickler-bypassed warning @ condenser C3 .001 mfd from V1.plate to NEG',
  ]);
  expect(findingsOf(check, check.fails)[0]?.cure).toBe(
    'Move C3 from V1.plate to the far end of the tickler, L1.tickler.finish.',
  );
});

test('the fix moves it to the far end', () => {
  expect(heard(check, afterFix(check, check.fails))).toEqual([]);
});

test('at the far end of the tickler it belongs', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('a variable condenser there governs regeneration', () => {
  const text = edited(check.fails, ['C3 .001 mfd', 'C3 variable 15 to 250 mmfd']);
  expect(heard(check, text)).toEqual([]);
});

test('less than 30 mmfd takes too little, and an unknown size is not judged', () => {
  expect(heard(check, edited(check.fails, ['C3 .001 mfd', 'C3 20 mmfd']))).toEqual([]);
  expect(heard(check, edited(check.fails, ['C3 .001 mfd', 'C3']))).toEqual([]);
});

test('an oscillator is judged by whether it oscillates', () => {
  expect(heard(check, edited(check.fails, ['detector stage', 'oscillator stage']))).toEqual([]);
});

test('what a switch can open is only information', () => {
  const text = edited(
    check.fails,
    ['C3 .001 mfd from V1.plate to NEG', 'C3 .001 mfd from V1.plate to SW'],
    ['  bus TIC', '  bus TIC\n  bus SW\n  switch S9 from SW to NEG closed'],
  );
  const findings = findingsOf(check, text);
  expect(findings.map(({ severity }) => severity)).toEqual(['information']);
  expect(findings[0]?.cure).toBe('Nothing, if it is meant: it is not so with S9 open.');
});
