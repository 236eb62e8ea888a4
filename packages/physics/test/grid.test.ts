import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  exponentialDetectionShift,
  type Grid,
  gridDetectionAudio,
  gridDetectionShift,
  gridLeakCorner,
  gridLeakRest,
  gridState,
  plateDetectionRise,
  thermalVoltage,
} from '../src/index.ts';
import { known, relativeError } from './support.ts';

/** One microampere at 0 volts, a quarter volt for each e-fold. */
const grid: Grid = { zeroCurrent: 1e-6, slopeVoltage: 0.25, perveance: 5e-5 };

describe('grid current', () => {
  it('grows e-fold in V₀ while the field holds electrons back', () => {
    // L. H. Germer, Physical Review 25 (1925) 795 (from memory).
    const lower = known(gridState(grid, -0.5)).current;
    expect(known(gridState(grid, -0.25)).current / lower).toBeCloseTo(Math.E, 9);
    expect(known(gridState(grid, 0)).current).toBeCloseTo(1e-6, 15);
  });

  it('goes over to the 1.5th power without a step in value or slope', () => {
    let last = known(gridState(grid, -1));
    for (let voltage = -0.9999; voltage < 2; voltage += 1e-4) {
      const state = known(gridState(grid, voltage));
      // A ten-thousandth of a volt is 0.04 % of an e-fold.
      expect(state.current / last.current).toBeLessThan(1.0005);
      expect(Math.abs(state.conductance / last.conductance - 1)).toBeLessThan(0.0005);
      last = state;
    }
  });

  it('stays finite and positive at every voltage, and its slopes are those of small steps', () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 50, noNaN: true }), (voltage) => {
        const state = known(gridState(grid, voltage));
        expect(state.current).toBeGreaterThan(0);
        const [high, low] = [gridState(grid, voltage + 1e-6), gridState(grid, voltage - 1e-6)];
        const rise = (known(high).current - known(low).current) / 2e-6;
        expect(Math.abs(state.conductance - rise)).toBeLessThan(1e-9 + 1e-4 * rise);
      }),
      { seed: 18, numRuns: 300 },
    );
    expect(known(gridState(grid, 1e6)).current).toBeLessThan(Infinity);
    expect(known(gridState(grid, -1e6)).current).toBe(0);
  });

  it('cannot grow faster than the heat of the cathode lets it', () => {
    // kT/e, computed independently: 0.086 to 0.095 volt for oxide at 1000 to 1100 kelvin, 0.155
    // to 0.164 for thoriated tungsten at 1800 to 1900.
    expect(known(thermalVoltage(1000))).toBeCloseTo(0.086, 3);
    expect(known(thermalVoltage(1100))).toBeCloseTo(0.095, 3);
    expect(known(thermalVoltage(1800))).toBeCloseTo(0.155, 3);
    expect(known(thermalVoltage(1900))).toBeCloseTo(0.164, 3);
  });
});

describe('a grid behind a leak', () => {
  it.each([
    [5, 0.21793],
    [0, -0.40145],
  ])('returned to %f volts through 2 megohms balances leak and grid current', (volts, rest) => {
    // V = 5 − 2·10⁶ i₀ exp(V/V₀): solved independently by halving.
    const { voltage, state } = known(gridLeakRest(grid, volts, 2e6));
    expect(voltage).toBeCloseTo(rest, 4);
    expect(relativeError((volts - voltage) / 2e6, state.current)).toBeLessThan(1e-6);
  });

  it('comes to rest for every leak and return', () => {
    const leak = fc.double({ min: 1e3, max: 1e8, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: -20, max: 20, noNaN: true }), leak, (volts, ohms) => {
        const { voltage, state } = known(gridLeakRest(grid, volts, ohms));
        expect(Math.abs(voltage + state.current * ohms - volts)).toBeLessThan(1e-6);
      }),
      { seed: 19, numRuns: 300 },
    );
  });
});

describe('grid-leak detection', () => {
  // V₀ ln I₀(E/V₀) with V₀ a quarter volt, computed independently.
  it.each([
    [0.05, 0.00249],
    [0.1, 0.0099],
    [0.2, 0.03851],
    [0.3, 0.083],
    [0.5, 0.206],
    [1, 0.60624],
  ])('of a carrier of %f volt on an exponential grid shifts it by %f volt', (carrier, shift) => {
    expect(known(exponentialDetectionShift(carrier, 0.25))).toBeCloseTo(shift, 5);
  });

  it('is the mean of the exponential over a cycle, for any carrier', () => {
    // Midpoint sum over the cycle, which converges beyond all figures for a periodic function.
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 400, noNaN: true }), (ratio) => {
        let sum = 0;
        for (let step = 0; step < 1000; step += 1) {
          sum += Math.exp(ratio * (Math.cos((Math.PI * (step + 0.5)) / 1000) - 1)) / 1000;
        }
        const mean = Math.log(sum) + ratio;
        const shift = known(exponentialDetectionShift(ratio, 1));
        expect(Math.abs(shift - mean)).toBeLessThan(1e-12 + 1e-11 * ratio);
      }),
      { seed: 20, numRuns: 100 },
    );
  });

  it('is E²/4V₀ for a small carrier when the leak is great', () => {
    // Chaffee and Browning, Proc. IRE 15 (1927) 113 (from memory).
    const state = known(gridState(grid, 0.2));
    const shift = known(gridDetectionShift(state, 1e12, 0.02));
    expect(relativeError(shift, -(0.02 ** 2) / (4 * 0.25))).toBeLessThan(1e-6);
    expect(relativeError(-shift, known(exponentialDetectionShift(0.02, 0.25)))).toBeLessThan(0.002);
  });

  it('goes with the square of the carrier and with its modulation', () => {
    // Same source: square law, audio term m E²/2 where the shift has E²/4.
    const { state } = known(gridLeakRest(grid, 5, 2e6));
    const shift = known(gridDetectionShift(state, 2e6, 0.05));
    expect(gridDetectionShift(state, 2e6, 0.1)).toBeCloseTo(4 * shift, 12);
    expect(gridDetectionAudio(state, 2e6, 0.05, 0.3)).toBeCloseTo(-0.6 * shift, 12);
  });

  // Leak alone with 0.00025 µF, computed independently: megohms, cycles.
  it.each([
    [1, 637],
    [2, 318],
    [5, 127],
  ])('with a leak of %f megohms alone falls off from %f cycles', (megohms, cycles) => {
    expect(known(gridLeakCorner(megohms * 1e6, 250e-12))).toBeCloseTo(cycles, 0);
  });

  it.each([
    [5, 6400],
    [0, 830],
  ])('with the leak returned to %f volts keeps tones up to %f cycles', (volts, cycles) => {
    // Computed independently for i₀ 1 µA, V₀ 0.25 V, 2 megohms, 0.00025 µF.
    const { state } = known(gridLeakRest(grid, volts, 2e6));
    const corner = gridLeakCorner(2e6, 250e-12, state.conductance);
    expect(relativeError(corner, cycles)).toBeLessThan(0.005);
  });
});

it('a biased detector raises its plate current by a quarter of E² times the curvature', () => {
  // The series of a curved characteristic: mean of (E cos)²/2 is E²/4.
  expect(known(plateDetectionRise(50e-6, 2))).toBeCloseTo(50e-6, 12);
});
