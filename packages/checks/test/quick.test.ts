import { expect, test } from 'vitest';
import { allChecks } from '../src/all.ts';
import { stageOscillates } from '../src/checks/stage-oscillates.ts';
import { pageOf } from '../src/explain.ts';
import { quickChecks } from '../src/quick.ts';
import { checkCircuit } from '../src/run.ts';
import { circuitOf } from './support.ts';

test('the quick checks are all but those that take long', () => {
  expect(quickChecks.length).toBeGreaterThan(0);
  expect(allChecks.filter((check) => !quickChecks.includes(check))).toEqual(
    allChecks.filter(({ thorough }) => thorough),
  );
});

test('a check that takes long is only run when it is asked for', () => {
  const circuit = circuitOf(stageOscillates.fails);
  const ids = (...checks: Parameters<typeof checkCircuit>): string[] =>
    checkCircuit(...checks).findings.map(({ check }) => check);
  expect(ids(circuit)).not.toContain('stage-oscillates');
  expect(ids(circuit, [stageOscillates])).toEqual(['stage-oscillates']);
});

test('its page says so', () => {
  expect(pageOf(stageOscillates)).toContain(
    'only run when asked for: `setwright check --thorough`',
  );
  for (const check of quickChecks) expect(pageOf(check)).not.toContain('--thorough');
});
