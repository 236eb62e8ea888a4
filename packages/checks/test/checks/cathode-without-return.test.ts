import { expect, test } from 'vitest';
import { cathodeWithoutReturn as check } from '../../src/checks/cathode-without-return.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const bias = '\n    resistor R1 2000 ohms from V1.cathode to GND';
const withBias = (line: string): string => sound.replace(bias, `\n    ${line}`);

test('a cathode with nothing but its bypass has no return, and the bypass is named', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'cathode-without-return error @ tube V1 27',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'The cathode of V1 has no return: C3 blocks direct current and nothing else leads from it to B-.',
  );
});

test('a cathode that nothing is joined to has no return', () => {
  const text = check.fails.replace('    condenser C3 1 mfd from V1.cathode to GND\n', '');
  expect(findingsOf(check, text)[0]?.message).toBe(
    'The cathode of V1 has no return: nothing is joined to it.',
  );
});

test('a bias resistor is a return', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('so are a choke and a bias battery', () => {
  expect(heard(check, withBias('choke CH1 30 H from V1.cathode to GND'))).toEqual([]);
  const battery =
    'battery C dry {\n      tap C- 0 V\n      tap C+ 4.5 V\n    }\n    wire C+ to V1.cathode\n    wire C- to GND';
  expect(heard(check, withBias(battery))).toEqual([]);
});

test('a cathode strapped to its heater returns by the heater supply', () => {
  expect(heard(check, withBias('wire V1.cathode to V1.filament-'))).toEqual([]);
});

test('a directly heated tube has no cathode of its own', () => {
  const text = check.fails
    .replace('27 {\n      heater', '26 {\n      filament')
    .replace('tap A+ 2.5 V', 'tap A+ 1.5 V')
    .replace('    condenser C3 1 mfd from V1.cathode to GND\n', '');
  expect(heard(check, text)).toEqual([]);
});

test('a plate supply that no tube is joined to is another check’s business', () => {
  expect(heard(check, check.fails.replace('wire B- to A- to GND', 'wire A- to GND'))).toEqual([]);
});

test('where no plate supply is written down nothing is known', () => {
  const text = check.fails
    .replace(/ {2}battery B[^}]*}\n/, '')
    .replace('wire B- to', 'wire')
    .replace('to B+90', 'to GND');
  expect(heard(check, text)).toEqual([]);
});

test('a switch that opens the cathode as drawn is information', () => {
  const text = withBias(
    'selector S1 from V1.cathode to C4.start, GND set 1\n    condenser C4 1 mfd to GND',
  );
  const [finding] = findingsOf(check, text);
  expect(finding?.severity).toBe('information');
  expect(finding?.cure).toContain('S1 at GND');
});
