import { expect, test } from 'vitest';
import { intermediatesDiffer as check } from '../../src/checks/intermediates-differ.ts';
import { superheterodyneExample } from '../../src/examples/superheterodyne-example.ts';
import { checkCircuit } from '../../src/run.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a transformer tuned with another condenser peaks elsewhere', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'intermediates-differ warning @ winding secondary 12.5 mH 100 ohms from GND',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toMatch(
    /^T2\.secondary peaks at 5\d\.?\d* kc and T1\.secondary at 44\.\d kc/,
  );
  expect(finding?.cure).toMatch(/^Give T2\.secondary about 4\d\d mmfd more than C7 has/);
});

test('circuits within half their width, plates counted, are one', () => {
  expect(heard(check, superheterodyneExample({ secondTuning: '.00097 mfd' }))).toEqual([]);
});

test('trimmers that can bring them together cure it', () => {
  const text = edited(check.fails, [
    '    condenser C8',
    '    condenser TR1 trimmer 50 to 600 mmfd across T2.secondary\n    condenser C8',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('a trimmer that reaches not far enough does not', () => {
  const text = edited(check.fails, [
    '    condenser C8',
    '    condenser TR1 trimmer 5 to 50 mmfd across T2.secondary\n    condenser C8',
  ]);
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('an unknown coil, or an unknown coupling to the plate, is not judged', () => {
  expect(heard(check, check.fails.replaceAll('12.5 mH ', ''))).toEqual([]);
});

test('staggered on purpose, with its reason', () => {
  const text = edited(check.fails, [
    '  post GND ground',
    '  meant intermediates-differ "staggered for music"\n  post GND ground',
  ]);
  expect(checkCircuit(circuitOf(text), [check]).findings.map((each) => each.check)).not.toContain(
    check.id,
  );
});
