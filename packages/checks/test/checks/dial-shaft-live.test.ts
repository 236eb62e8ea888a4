import { expect, test } from 'vitest';
import { dialShaftLive as check } from '../../src/checks/dial-shaft-live.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const ends = 'rotor to L2.plate.finish stator to L2.plate.start';

test('a plate-tuning condenser with its rotor at B has a live shaft', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    `dial-shaft-live warning @ condenser C2 variable 14 to 365 mmfd ${ends}`,
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'The rotor of C2, and with it the set-screw of D2, stands 135 V from ground.',
  );
  expect(finding?.cure).toContain('.006 mfd');
  expect(finding?.fixes).toEqual([]);
});

test('an insulated shaft is safe', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('where the stator is near ground, exchanging the two is the cure', () => {
  const text = check.fails.replace(ends, 'rotor to L2.plate.start stator to GND');
  expect(findingsOf(check, text)).toHaveLength(1);
  const cured = afterFix(check, text);
  expect(cured).toContain('rotor to GND stator to L2.plate.start');
  expect(heard(check, cured)).toEqual([]);
});

test('the condensers of a gang have one shaft and get one finding', () => {
  const text = check.fails
    .replace('rotor to GND stator to L1.grid.finish', 'rotor to B+135 stator to L1.grid.finish')
    .replace('  dial D1', '  gang G1 C1, C2\n  dial D1')
    .replace('drives C1\n  dial D2 0 to 100 drives C2', 'drives G1');
  expect(findingsOf(check, text).map(({ message }) => message)).toEqual([
    'The rotors of C1 and C2, and with them the set-screw of D1, stand 135 V from ground.',
  ]);
});

test('a shaft within 30 V of ground is safe', () => {
  const text = check.fails.replaceAll('B+135', 'B+22').replace('135 V', '22.5 V');
  expect(heard(check, text)).toEqual([]);
});

test('where the rotor is not said nothing is known', () => {
  const text = check.fails.replace(ends, 'from L2.plate.finish to L2.plate.start');
  expect(heard(check, text)).toEqual([]);
});

test('a trimmer is set with a tool', () => {
  const text = check.fails
    .replace('C2 variable 14 to 365 mmfd', 'C2 trimmer 10 to 100 mmfd')
    .replace('  dial D2 0 to 100 drives C2\n', '');
  expect(heard(check, text)).toEqual([]);
});

test('a rotor that nothing ties to a supply has no volts to tell', () => {
  expect(
    heard(
      check,
      check.fails
        .replace('28 DSC to B+135', '28 DSC')
        .replace('condenser C4 .5 mfd from B+135 to V1.filament-', ''),
    ),
  ).toEqual([]);
});
