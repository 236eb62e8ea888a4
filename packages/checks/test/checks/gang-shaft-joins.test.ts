import { expect, test } from 'vitest';
import { gangShaftJoins as check } from '../../src/checks/gang-shaft-joins.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;

test('rotors of one gang on different junctions are joined by the shaft', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'gang-shaft-joins warning @ gang G1 C1, C2',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toBe(
    'The shaft of G1 joins rotors that are drawn apart: C1 on GND and C2 on NEG.',
  );
  expect(finding?.parts).toEqual(['C1', 'C2']);
  expect(finding?.related).toHaveLength(2);
});

test('rotors on one junction may share a shaft', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('a condenser said to be insulated from the shaft is left alone, and the fix says so', () => {
  const cured = afterFix(check, check.fails);
  expect(cured).toContain('stator to L2.secondary.finish insulated\n');
  expect(heard(check, cured)).toEqual([]);
});

test('a condenser with an unknown rotor is left alone', () => {
  const text = check.fails.replace('rotor to NEG stator to', 'from NEG to');
  expect(heard(check, text)).toEqual([]);
});

test('rotors that a lead joins anyway are joined', () => {
  expect(heard(check, check.fails.replace('  gang', '  wire NEG to GND .1 ohms\n  gang'))).toEqual(
    [],
  );
});

test('one dial on condensers in no gang may drive them by belts: information', () => {
  const text = check.fails.replace('  gang G1 C1, C2\n', '').replace('drives G1', 'drives C1, C2');
  expect(told(text, findingsOf(check, text))).toEqual([
    'gang-shaft-joins information @ dial D1 0 to 100 drives C1, C2',
  ]);
});

test('separate dials join nothing', () => {
  const text = check.fails
    .replace('  gang G1 C1, C2\n', '')
    .replace('drives G1', 'drives C1\n  dial D2 0 to 100 drives C2');
  expect(heard(check, text)).toEqual([]);
});
