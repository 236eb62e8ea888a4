import { expect, test } from 'vitest';
import { noRadioReturn as check } from '../../src/checks/no-radio-return.ts';
import { sharedSupplyPath } from '../../src/checks/shared-supply-path.ts';
import { trfExample } from '../../src/examples/trf-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a plate fed through a resistor with no bypass loses what it amplifies', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'no-radio-return warning @ winding plate 7 turns of 26 DCC from V1.plate to RFB',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'The radio current of V1 has no low way home: through R6 it is 12 kilohms at 550 kc.',
  );
  expect(finding?.why).toMatch(/^That costs the stage 5\.1 decibels/);
  expect(finding?.cure).toBe(
    'Put a condenser of .006 to .5 mfd from L2.plate.finish to V1.filament-.',
  );
});

test('through a radio choke with no bypass it is as bad', () => {
  const text = edited(check.fails, [
    'resistor R6 12 kilohms from B+67 to RFB',
    'choke R6 85 mH 200 ohms from B+67 to RFB',
  ]);
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('a battery with no bypass is a way home', () => {
  expect(heard(check, trfExample({ feed: '' }))).toEqual([]);
});

test('less than two decibels are no fault', () => {
  expect(heard(check, edited(check.fails, ['12 kilohms', '3000 ohms']))).toEqual([]);
});

test('phones or a transformer in the plate circuit let radio current pass by their capacity', () => {
  const text = edited(check.fails, [
    'resistor R6 12 kilohms from B+67 to RFB',
    'phones R6 2000 ohms from B+67 to RFB',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('audio plates never need a radio return', () => {
  expect(heard(check, edited(check.fails, ['radio stage RF1', 'audio stage RF1']))).toEqual([]);
});

test('what stages share is told as shared, once', () => {
  const text = edited(sharedSupplyPath.fails, ['R6 2000 ohms', 'R6 12 kilohms']);
  expect(heard(check, text)).toEqual([]);
  expect(findingsOf(sharedSupplyPath, text)).toHaveLength(1);
});

test('a tube of unknown type is not judged', () => {
  const text = edited(check.fails, ['tube V1 01-A', 'tube V1 Q9']);
  expect(findingsOf(check, text)).toEqual([]);
});

test('it says that no voltmeter finds an opened bypass, and what decides what it does', () => {
  expect(findingsOf(check, check.fails)[0]?.why).toContain('every DC voltage is as it would be');
  for (const words of ['leaves every DC voltage as it was', 'resistance of the supply', '500 ohms'])
    expect(check.why).toContain(words);
});
