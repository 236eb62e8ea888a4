import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plateResistance, type Triode, type TriodeVoltages, triodeState } from '../src/index.ts';
import { known, relativeError } from './support.ts';

const triode: Triode = { perveance: 0.22e-3, mu: 8, offset: 0.8 };
const working: TriodeVoltages = { plate: 90, grid: -4.5, filament: 5 };

describe('a triode', () => {
  it('follows Child and Langmuir without a drop along its cathode', () => {
    // C. D. Child (1911), I. Langmuir (1913): G (Eg + Ep/μ + e₀)^1.5.
    const state = known(triodeState(triode, { ...working, filament: 0 }));
    const effective = -4.5 + 90 / 8 + 0.8;
    expect(relativeError(state.current, 0.22e-3 * effective ** 1.5)).toBeLessThan(1e-12);
    expect(relativeError(state.transconductance, 0.33e-3 * Math.sqrt(effective))).toBeLessThan(
      1e-12,
    );
  });

  it('has a plate resistance of μ over its transconductance', () => {
    // Defining relation of the three coefficients.
    const state = known(triodeState(triode, working));
    expect(relativeError(plateResistance(state), 8 / state.transconductance)).toBeLessThan(1e-12);
  });

  it('adds up the current along its filament bit by bit', () => {
    // Two hundred bits of the filament, each by itself: the average by midpoints.
    let sum = 0;
    for (let bit = 0; bit < 200; bit += 1) {
      const up = (5 * (bit + 0.5)) / 200;
      const at = { plate: 60 - up, grid: -4.5 - up, filament: 0 };
      sum += known(triodeState(triode, at)).current / 200;
    }
    const whole = known(triodeState(triode, { plate: 60, grid: -4.5, filament: 5 }));
    expect(relativeError(whole.current, sum)).toBeLessThan(1e-3);
  });

  it('draws more when the grid returns to the positive end: bias counts from F−', () => {
    const negative = known(triodeState(triode, { ...working, grid: 0 })).current;
    const positive = known(triodeState(triode, { ...working, grid: 5 })).current;
    expect(positive).toBeGreaterThan(1.5 * negative);
  });

  it('is dead, not undefined, beyond cut-off, with a negative plate and without emission', () => {
    expect(known(triodeState(triode, { ...working, grid: -30 })).current).toBe(0);
    expect(known(triodeState(triode, { ...working, plate: -10, grid: 20 })).current).toBe(0);
    expect(known(triodeState(triode, working, 0)).current).toBe(0);
    expect(plateResistance(known(triodeState(triode, { ...working, grid: -30 })))).toBeUndefined();
  });

  it('never draws more than its filament emits', () => {
    const state = known(triodeState(triode, { plate: 400, grid: 50, filament: 5 }, 0.002));
    expect(state.current).toBeLessThanOrEqual(0.002);
    expect(state.current).toBeGreaterThan(0.0019);
  });

  it('has the slopes that small steps of each voltage show', () => {
    const voltages = fc.record({
      plate: fc.double({ min: 0.5, max: 200, noNaN: true }),
      grid: fc.double({ min: -10, max: 10, noNaN: true }),
      filament: fc.double({ min: 0, max: 6, noNaN: true }),
    });
    fc.assert(
      fc.property(voltages, fc.double({ min: 1e-3, max: 0.1, noNaN: true }), (at, emission) => {
        const state = known(triodeState(triode, at, emission));
        const step = 1e-4;
        const slope = (name: keyof TriodeVoltages) => {
          const high = known(triodeState(triode, { ...at, [name]: at[name] + step }, emission));
          const low = known(triodeState(triode, { ...at, [name]: at[name] - step }, emission));
          return (high.current - low.current) / (2 * step);
        };
        expect(Math.abs(state.transconductance - slope('grid'))).toBeLessThan(1e-8);
        expect(Math.abs(state.plateConductance - slope('plate'))).toBeLessThan(1e-8);
        expect(Math.abs(state.filamentConductance - slope('filament'))).toBeLessThan(1e-8);
      }),
      { seed: 16, numRuns: 300 },
    );
  });

  it('has the curvature that small steps of its transconductance show', () => {
    const gm = (grid: number) =>
      known(triodeState(triode, { plate: 90, grid, filament: 5 })).transconductance;
    const { curvature } = known(triodeState(triode, working));
    expect(relativeError(curvature, (gm(-4.499) - gm(-4.501)) / 0.002)).toBeLessThan(1e-5);
  });
});
