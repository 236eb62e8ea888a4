import { expect, test } from 'vitest';
import { gasTubeMisplaced as check } from '../../src/checks/gas-tube-misplaced.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;

test('a gas detector in the last stage', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'gas-tube-misplaced warning @ tube V1 00-A',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'V1 is a 00-A, a gas detector, in the output stage AF.',
  );
});

test('the cure names a hard tube of the same filament, and where the two were exchanged', () => {
  const text = check.fails.replace(
    '  output stage',
    '  detector stage DET2 {\n    tube V2 01-A\n  }\n  output stage',
  );
  expect(findingsOf(check, text)[0]?.cure).toBe(
    'Put a hard tube in its socket, such as the 01-A of this set; the 00-A belongs, if anywhere, in that of V2.',
  );
});

test('a hard tube may amplify', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('a gas tube detects, in a reflex stage and a mixer too', () => {
  for (const roles of ['detector', 'detector audio', 'mixer'])
    expect(heard(check, check.fails.replace('output stage', `${roles} stage`))).toEqual([]);
});

test('a note in its block, or one that names it, settles it', () => {
  const inside = check.fails.replace(
    'plate to PH1.start\n',
    'plate to PH1.start\n      note "All that was to be had."\n',
  );
  expect(heard(check, inside)).toEqual([]);
  const named = check.fails.replace('  post ANT', '  note "V1 was found so."\n  post ANT');
  expect(heard(check, named)).toEqual([]);
});

test('a note about something else does not', () => {
  const text = check.fails.replace('  post ANT', '  note "From the harbour office."\n  post ANT');
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('a tube in no stage may be anything', () => {
  const text = check.fails.replace('output stage AF {', '').replace(/ {2}\}\n\}\n$/, '}\n');
  expect(heard(check, text)).toEqual([]);
});
