import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { pathAt } from '../../src/small-signal/path-at.ts';
import { smallSignal } from '../../src/small-signal/small-signal.ts';
import { exampleSets } from '../reading-set.ts';
import { threeDialSet } from './three-dial-set.ts';

function parts(
  circuit: Parameters<typeof smallSignal>[0],
  from: string,
  frequency: number,
  to?: string,
): readonly string[] {
  const set = smallSignal(circuit, operatingPoint(circuit));
  return [...new Set(pathAt(set, from, frequency, to).steps.map(({ part }) => part))];
}

const five = exampleSets.get('five-tube-trf')!;

describe('the way of a signal home', () => {
  it('of radio in a plate goes through its coil and the bypass, not the battery', () => {
    expect(parts(five, 'V1.plate', 1e6)).toEqual(['L2.plate', 'C5', 'RH1']);
  });

  it('of radio in a plate goes through the battery when the bypass is gone', () => {
    const open = threeDialSet({ losser: 3000, bypass: false });
    expect(parts(open, 'V1.plate', 1e6)).toEqual(['L2.first', 'B', 'RH1']);
  });

  it('of audio in a plate goes through transformer and battery', () => {
    expect(parts(five, 'V4.plate', 400)).toEqual(['T2.primary', 'B', 'RH3']);
  });

  it('of audio at a grid goes through the secondary and the C battery', () => {
    expect(parts(five, 'V4.grid', 400)).toEqual(['T1.secondary', 'C', 'RH3']);
  });

  it('of radio at a detector grid goes through the grid condenser', () => {
    expect(parts(five, 'V3.grid', 1e6)[0]).toBe('C4');
  });

  it('can lead to any other terminal', () => {
    expect(parts(five, 'L1.grid.finish', 1e6, 'V1.grid')).toEqual(['R1']);
  });

  it('adds up what its steps oppose', () => {
    const set = smallSignal(five, operatingPoint(five));
    const { steps, impedance } = pathAt(set, 'V1.plate', 1e6);
    expect(steps.reduce((sum, step) => sum + step.impedance, 0)).toBeCloseTo(impedance, 6);
  });

  it('has each step begin where the last one ended', () => {
    const set = smallSignal(five, operatingPoint(five));
    const { steps } = pathAt(set, 'V5.plate', 400);
    expect(steps.length).toBeGreaterThan(2);
    for (const [at, step] of steps.entries())
      if (at > 0) expect(set.pointOf(step.in)).toBe(set.pointOf(steps[at - 1]!.out));
  });

  it('is not found from what does not exist', () => {
    const set = smallSignal(five, operatingPoint(five));
    expect(pathAt(set, 'NOBODY.grid', 1e6).found).toBe(false);
    expect(pathAt(set, 'V1.grid', Number.NaN).found).toBe(false);
  });
});
