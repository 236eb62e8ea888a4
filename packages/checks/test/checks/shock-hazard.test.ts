import { expect, test } from 'vitest';
import { shockHazard as check } from '../../src/checks/shock-hazard.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const cureOf = (text: string) => findingsOf(check, text)[0]?.cure;

test('tap and phones above 60 V are listed once, at the battery', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'shock-hazard information @ battery B dry',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'Within reach of a hand and up to 67.5 V from ground: B+ and the cord of PH1.',
  );
  expect(finding?.related.map(({ message }) => message)).toEqual([
    'B+: 67.5 V',
    'the cord of PH1: 67.5 V',
  ]);
});

test('the caution: leads off, the switch does not do it, phones off the head', () => {
  expect(cureOf(check.fails)).toBe(
    'Take the B leads off at the battery before working inside; S1 does not take it off; keep PH1 off the head while you touch anything; keep one hand away from the set while B is on.',
  );
});

test('a switch in the B lead does take it off what is inside', () => {
  const text = check.fails
    .replace('to B+\n  }\n', 'to S2.finish\n  }\n')
    .replace('  switch S1', '  switch S2 from B+ closed\n  switch S1');
  expect(cureOf(text)).not.toContain('take it off');
});

test('charged condensers and the mains', () => {
  const text = check.fails
    .replace('battery B dry', 'eliminator B')
    .replace('  post ANT', '  condenser C3 1 mfd 200 V from B+ to GND\n  post ANT');
  expect(cureOf(text)).toMatch(/^Unplug the supply .* discharge C3 through a resistor;/);
});

test('posts, jacks and dial shafts are on the list, insulated shafts are not', () => {
  const text = check.fails
    .replace('from V1.plate to B+', 'from LS1 to B+')
    .replace('plate to PH1.start', 'plate to J1.tip')
    .replace(
      'post ANT',
      'post LS1 speaker\n  jack J1 to LS1\n  condenser C4 variable 10 to 100 mmfd rotor to B+ stator to GND\n  condenser C5 variable 10 to 100 mmfd rotor to B+ stator to GND insulated\n  dial D4 0 to 100 drives C4\n  post ANT',
    );
  expect(findingsOf(check, text)[0]?.message).toBe(
    'Within reach of a hand and up to 67.5 V from ground: B+, LS1, the jack J1, the cord of PH1 and the shaft of D4.',
  );
});

test('a set on 45 V', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('a tap of unknown volts', () => {
  expect(heard(check, check.fails.replace('tap B+ 67.5 V', 'tap B+'))).toEqual([]);
});
