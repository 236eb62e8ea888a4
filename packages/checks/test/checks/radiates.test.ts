import { expect, test } from 'vitest';
import { radiates as check } from '../../src/checks/radiates.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { checkCircuit } from '../../src/run.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a regenerative detector on the aerial’s coil can send', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'radiates information @ tube V1 01-A',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'V1 can oscillate by L1.tickler, and L1.grid reaches ANT with no tube between: it would send.',
  );
});

test('an aerial on a small condenser is reached as well', () => {
  const text = regenerativeExample({ aerial: 'from GND' }).replace(
    '  detector stage',
    '  condenser C9 .0001 mfd from ANT to L1.grid.finish\n  detector stage',
  );
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('a radio stage in between lets nothing back', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('a set with no aerial sends nothing to speak of', () => {
  expect(heard(check, edited(check.fails, ['post ANT aerial 250 mmfd', 'post ANT loop']))).toEqual(
    [],
  );
});

test('a tickler the wrong way round, or far too weak, makes nothing oscillate', () => {
  expect(heard(check, regenerativeExample({ tickler: 'from TIC to V1.plate' }))).toEqual([]);
  const weak = edited(check.fails, [
    '16 turns of 30 DSC beside grid spaced 1/8 in',
    '1 turns of 30 DSC beside grid spaced 30 in',
  ]);
  expect(heard(check, weak)).toEqual([]);
});

test('one that turns may stand either way', () => {
  expect(
    findingsOf(check, regenerativeExample({ tickler: 'set 5 % from TIC to V1.plate' })),
  ).toHaveLength(1);
});

test('a fixed tickler of unknown make is not judged', () => {
  expect(heard(check, edited(check.fails, ['form 2 3/4 in', '']))).toEqual([]);
});

test('period practice that is said to be so is silent', () => {
  const text = edited(check.fails, [
    '    coil L1',
    '    meant radiates "Kept below oscillation."\n    coil L1',
  ]);
  expect(checkCircuit(circuitOf(text), [check]).findings.map((each) => each.check)).not.toContain(
    'radiates',
  );
});
