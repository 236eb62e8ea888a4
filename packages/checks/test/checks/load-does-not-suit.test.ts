import { expect, test } from 'vitest';
import { loadDoesNotSuit as check } from '../../src/checks/load-does-not-suit.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const phones = 'phones PH1 32 ohms from V1.plate to B+45';

test('modern phones straight in the plate', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    `load-does-not-suit warning @ ${phones}`,
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'PH1 of 32 ohms is far too low a load for V1, a 01-A of 10 kilohms plate resistance.',
  );
  expect(finding?.cure).toContain('about 18 to 1');
});

test('phones of 2000 ohms', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('a stated inductance tells the impedance', () => {
  const text = check.fails.replace('PH1 32 ohms', 'PH1 400 ohms .05 H');
  expect(findingsOf(check, text)).toHaveLength(1);
  expect(heard(check, text.replace('.05 H', '1 H'))).toEqual([]);
});

test('a loudspeaker behind a transformer', () => {
  const text = check.fails
    .replace(
      phones,
      'transformer T2 ratio 20 to 1 {\n      winding primary from V1.plate to B+45\n      winding secondary from GND to SP\n    }\n    bus SP\n    phones PH1 32 ohms from SP to GND',
    )
    .replace('plate to PH1.start', '');
  expect(heard(check, text)).toEqual([]);
});

test('a loudspeaker behind a choke and a condenser, or beside a choke', () => {
  const behind = check.fails
    .replace(
      phones,
      'choke CH1 30 H from V1.plate to B+45\n    condenser C3 2 mfd from V1.plate to PH1.start\n    phones PH1 32 ohms to GND',
    )
    .replace('plate to PH1.start', '');
  expect(heard(check, behind)).toEqual([]);
  const beside = check.fails.replace(phones, `${phones}\n    choke CH1 30 H from V1.plate to B+45`);
  expect(heard(check, beside)).toEqual([]);
});

test('where neither ohms nor inductance are known nothing is said', () => {
  expect(heard(check, check.fails.replace('PH1 32 ohms', 'PH1'))).toEqual([]);
});

test('ohms that a generous guess can save are left alone', () => {
  expect(heard(check, check.fails.replace('PH1 32 ohms', 'PH1 60 ohms'))).toEqual([]);
});

test('a type without a published plate resistance', () => {
  const own =
    '\ntube type 01-A {\n  filament 5 V .25 A\n  point plate 90 V grid -4.5 V current 2.5 mA\n}\n';
  expect(heard(check, check.fails + own)).toEqual([]);
});

test('a pentode works into far less than its plate resistance', () => {
  const text = check.fails
    .replace('tube V1 01-A {', 'tube V1 33 {\n      screen to B+45')
    .replace('A+ 6 V', 'A+ 2 V');
  expect(heard(check, text)).toEqual([]);
});

test('phones in series with another load', () => {
  const text = check.fails.replace(
    phones,
    'phones PH1 32 ohms from V1.plate to X\n    bus X\n    horn H1 2000 ohms from X to B+45',
  );
  expect(heard(check, text)).toEqual([]);
});
