import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capacitanceAtDial,
  dialAtCapacitance,
  dialFraction,
  dialReading,
  type PlateLaw,
  resonantFrequency,
  type VariableCondenser,
  wavelength,
} from '../src/index.ts';
import { known } from './support.ts';

const condenser = (law: PlateLaw): VariableCondenser => ({
  minimum: 14e-12,
  maximum: 365e-12,
  law,
  stray: 20e-12,
});

/** Equal steps of the dial, and what it should give equal steps of. */
function steps(law: PlateLaw, quantity: (capacitance: number) => number): number[] {
  const values = [0, 0.25, 0.5, 0.75, 1].map((fraction) =>
    quantity(known(capacitanceAtDial(condenser(law), fraction))),
  );
  return values.slice(1).map((value, index) => value - (values[index] ?? Number.NaN));
}
const total = (capacitance: number) => capacitance + 20e-12;
const tuned = (capacitance: number) => known(resonantFrequency(200e-6, total(capacitance)));

// What each cut of plates was sold for (common practice): even capacity, wavelength, frequency.
describe('equal steps of the dial', () => {
  it.each([
    ['capacity', total],
    ['wavelength', (capacitance: number) => known(wavelength(tuned(capacitance)))],
    ['frequency', tuned],
  ] as const)('give equal steps of %s with plates cut for it', (law, quantity) => {
    const all = steps(law, quantity);
    for (const step of all) {
      expect(step / (all[0] ?? Number.NaN)).toBeCloseTo(1, 9);
    }
  });
});

describe('a variable condenser', () => {
  it('comes back to the same dial fraction from its capacity, under every law', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<PlateLaw>('capacity', 'wavelength', 'frequency'),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (law, fraction) => {
          const capacitance = known(capacitanceAtDial(condenser(law), fraction));
          expect(dialAtCapacitance(condenser(law), capacitance)).toBeCloseTo(fraction, 9);
        },
      ),
      { seed: 12, numRuns: 200 },
    );
  });

  it('has its printed capacities at the ends and more the further the plates are in', () => {
    for (const law of ['capacity', 'wavelength', 'frequency'] as const) {
      expect(capacitanceAtDial(condenser(law), 0)).toBe(14e-12);
      expect(capacitanceAtDial(condenser(law), 1)).toBe(365e-12);
      const middle = known(capacitanceAtDial(condenser(law), 0.5));
      expect(middle).toBeGreaterThan(known(capacitanceAtDial(condenser(law), 0.4)));
    }
  });

  it('never has a capacity outside its range', () => {
    expect(dialAtCapacitance(condenser('capacity'), 10e-12)).toBeUndefined();
    expect(dialAtCapacitance(condenser('capacity'), 400e-12)).toBeUndefined();
  });
});

describe('a dial', () => {
  it('reads 100 with plates in, or 0 when reversed', () => {
    expect(dialReading(1, 0, 100)).toBe(100);
    expect(dialReading(1, 0, 100, true)).toBe(0);
    expect(dialReading(0.25, 0, 180)).toBe(45);
  });

  it('gives the fraction back from its reading', () => {
    expect(dialFraction(45, 0, 180)).toBe(0.25);
    expect(dialFraction(75, 0, 100, true)).toBe(0.25);
    expect(dialFraction(101, 0, 100)).toBeUndefined();
  });
});
