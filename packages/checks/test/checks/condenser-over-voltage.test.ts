import { expect, test } from 'vitest';
import { condenserOverVoltage as check } from '../../src/checks/condenser-over-voltage.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const battery = (volts: number, rating: string): string =>
  sound
    .replace('eliminator B', 'battery B dry')
    .replace('90 V at 10 mA resistance 4 kilohms', `${volts} V`)
    .replaceAll('B+90', `B+${volts}`)
    .replace('1 mfd 200 V', `1 mfd ${rating}`);

test('a supply climbs while the tubes are cold', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'condenser-over-voltage warning @ condenser C3 1 mfd 100 V from B+90 to GND',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'C3 is rated 100 V and stands under 130 V while the tubes are cold.',
  );
  expect(finding?.cure).toBe('Use one rated for 200 V or more for C3.');
});

test('a rating above that', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('a battery is a little above its name when fresh', () => {
  expect(findingsOf(check, battery(90, '90 V')).map(({ message }) => message)).toEqual([
    'C3 is rated 90 V and stands under 96.3 V with a fresh battery.',
  ]);
  expect(heard(check, battery(90, '100 V'))).toEqual([]);
});

test('a coupling condenser has plate and bias to stand', () => {
  const text = sound
    .replace('1 mfd 200 V from B+90 to GND', '1 mfd from B+90 to GND')
    .replace('    phones', '    condenser C4 .006 mfd 120 V from V1.plate to C-4.5\n    phones');
  expect(findingsOf(check, text)[0]?.message).toMatch(/^C4 is rated 120 V and stands under 13[45]/);
});

test('without a rating nothing is said', () => {
  expect(heard(check, check.fails.replace('1 mfd 100 V', '1 mfd'))).toEqual([]);
});

test('a condenser between taps of little difference', () => {
  const text = battery(90, '50 V')
    .replace('tap B+90', 'tap B+67 67.5 V\n    tap B+90')
    .replace('from B+90 to GND', 'from B+90 to B+67');
  expect(heard(check, text)).toEqual([]);
});

test('an end that nothing holds has no volts to tell', () => {
  const text = check.fails
    .replace('from B+90 to GND', 'from B+90 to L9.a.start')
    .replace('post ANT', 'coil L9 {\n    winding a 10 turns\n  }\n  post ANT');
  expect(heard(check, text)).toEqual([]);
});

test('a tap of unknown volts', () => {
  const text = check.fails
    .replaceAll('B+90 90 V at 10 mA resistance 4 kilohms', 'B+')
    .replaceAll('B+90', 'B+');
  expect(heard(check, text)).toEqual([]);
});

test('a divider of unknown resistors', () => {
  const text = battery(90, '40 V')
    .replace('from B+90 to GND', 'from R8.finish to GND')
    .replace('post ANT', 'resistor R8 from B+90\n  resistor R9 from R8.finish to GND\n  post ANT');
  expect(heard(check, text)).toEqual([]);
});
