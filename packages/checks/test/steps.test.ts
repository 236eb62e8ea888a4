import type { Finding } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { allChecks } from '../src/all.ts';
import { checkCircuit, checkSteps } from '../src/run.ts';
import { circuitOf } from './support.ts';

const { fails } = allChecks.find(({ id }) => id === 'grid-condenser-without-leak')!;
const standing: Finding = {
  ...checkCircuit(circuitOf(fails)).findings.find(
    ({ check }) => check === 'grid-condenser-without-leak',
  )!,
  message: 'of an earlier reading',
};

/** The last step, which tells what all checks have said. */
const last = (text: string, checks = allChecks) => {
  const steps = [...checkSteps(circuitOf(text), checks)];
  expect(steps.map(({ check }) => check)).toEqual(checks.map(({ id }) => id));
  return steps.at(-1)!;
};

describe('checks one by one', () => {
  it('say in the end what they say at once', () => {
    expect(last(fails).soFar()).toEqual(checkCircuit(circuitOf(fails), allChecks));
  });

  it('let stand what an earlier reading found until the check has run', () => {
    const before = allChecks.filter(({ id }) => id !== 'grid-condenser-without-leak');
    const messages = last(fails, before)
      .soFar([standing])
      .findings.map(({ message }) => message);
    expect(messages).toContain('of an earlier reading');
    const after = last(fails)
      .soFar([standing])
      .findings.map(({ message }) => message);
    expect(after).not.toContain('of an earlier reading');
  });

  it('let it stand while the check waits for a line that cannot be read', () => {
    const broken = fails.replace('phones PH1', 'phnes PH1');
    const checked = last(broken).soFar([standing]);
    expect(checked.waiting).toContain('grid-condenser-without-leak');
    expect(checked.findings.map(({ message }) => message)).toContain('of an earlier reading');
  });

  it('let it be silenced by what says it better, and by a meant', () => {
    const graver = { ...standing, check: 'filament-open' };
    const step = last(fails.replace('phones PH1', 'phnes PH1'));
    const checks = step.soFar([standing, graver]).findings.map(({ check }) => check);
    expect(checks).toContain('filament-open');
    expect(checks).not.toContain('grid-condenser-without-leak');
    const meant = fails
      .replace('battery A', 'meant grid-condenser-without-leak "so"\n  battery A')
      .replace('phones PH1', 'phnes PH1');
    const waived = last(meant).soFar([standing]);
    expect(waived.waived.map(({ finding }) => finding.message)).toContain('of an earlier reading');
  });
});
