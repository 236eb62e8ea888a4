import { expect, test } from 'vitest';
import { hornPolarity as check } from '../../src/checks/horn-polarity.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const wrong = 'positive to V1.plate negative to B+90';

test('a horn with its positive terminal on the plate', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    `horn-polarity warning @ horn H1 2000 ohms ${wrong}`,
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'The plate current of V1 leaves H1 by its positive terminal, which leads to the plate.',
  );
  expect(finding?.cure).toBe('Exchange the leads of H1: positive to B+90, negative to the plate.');
});

test('a horn with its positive terminal on the tap', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix exchanges the leads', () => {
  expect(afterFix(check, check.fails)).toBe(sound);
});

test('the way is followed through posts and a closed jack', () => {
  const text = check.fails
    .replace(wrong, 'positive to LS1 negative to B+90')
    .replace('post ANT', 'post LS1 speaker\n  jack J1 from V1.plate to LS1\n  post ANT');
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('a polarity that is not stated cannot be wrong', () => {
  expect(heard(check, check.fails.replace(wrong, 'from V1.plate to B+90'))).toEqual([]);
});

test('no direct current flows in a horn behind a choke and a condenser', () => {
  const text = check.fails.replace(
    `horn H1 2000 ohms ${wrong}`,
    'choke CH1 30 H from V1.plate to B+90\n    condenser C3 2 mfd from V1.plate to LS1\n    bus LS1\n    horn H1 2000 ohms positive to LS1 negative to A-',
  );
  expect(heard(check, text)).toEqual([]);
});

test('nor in one on an output transformer', () => {
  const text = check.fails.replace(
    `horn H1 2000 ohms ${wrong}`,
    'transformer T2 ratio 1 to 1 {\n      winding primary from V1.plate to B+90\n      winding secondary from LS1 to LS2\n    }\n    bus LS1\n    bus LS2\n    horn H1 2000 ohms positive to LS1 negative to LS2',
  );
  expect(heard(check, text)).toEqual([]);
});

test('phones and cones are left alone', () => {
  expect(heard(check, check.fails.replace('horn H1', 'phones H1'))).toEqual([]);
  expect(heard(check, check.fails.replace('horn H1', 'speaker H1'))).toEqual([]);
});
