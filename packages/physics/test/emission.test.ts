import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  emissionRatio,
  emissionState,
  limitedByEmission,
  typicalSaturation,
} from '../src/index.ts';
import { known } from './support.ts';

describe('emission of a filament', () => {
  it.each(['tungsten', 'thoriated', 'oxide'] as const)(
    'of %s is all there at rated volts and grows with them',
    (cathode) => {
      expect(emissionRatio(cathode, 1)).toBe(1);
      expect(emissionRatio(cathode, 0)).toBe(0);
      let last = 0;
      for (let volts = 0.02; volts < 1.3; volts += 0.02) {
        const ratio = known(emissionRatio(cathode, volts));
        expect(ratio).toBeGreaterThanOrEqual(last);
        last = ratio;
      }
    },
  );

  it('has the slope that a small step shows', () => {
    for (const volts of [0.3, 0.7, 1, 1.2]) {
      const step = 1e-6 * volts;
      const rise =
        known(emissionRatio('oxide', volts + step)) - known(emissionRatio('oxide', volts - step));
      const { slope } = known(emissionState('oxide', volts));
      expect(rise / (2 * step) / slope).toBeCloseTo(1, 6);
    }
  });

  it('of a thoriated filament falls to about half when its volts are down a tenth', () => {
    // From memory of tube-testing practice: about 6 % of emission for 1 % of volts.
    expect(known(emissionRatio('thoriated', 0.9))).toBeGreaterThan(0.4);
    expect(known(emissionRatio('thoriated', 0.9))).toBeLessThan(0.6);
  });

  it('is far above the working current of an 01-A at 5 volts, quarter ampere', () => {
    // From memory: sound tubes test at 25 to 60 milliamperes.
    const saturation = known(typicalSaturation('thoriated', 1.25));
    expect(saturation).toBeGreaterThan(0.025);
    expect(saturation).toBeLessThan(0.08);
  });
});

describe('a current held down by the emission', () => {
  const amperes = fc.double({ min: 1e-6, max: 1, noNaN: true });

  it('is below both what space charge allows and what the filament emits', () => {
    fc.assert(
      fc.property(amperes, amperes, (spaceCharge, saturation) => {
        const { current } = known(limitedByEmission(spaceCharge, saturation));
        expect(current).toBeLessThanOrEqual(Math.min(spaceCharge, saturation));
        expect(current).toBeGreaterThan(0.79 * Math.min(spaceCharge, saturation));
      }),
      { seed: 14, numRuns: 200 },
    );
  });

  it('has the slopes that small steps show', () => {
    fc.assert(
      fc.property(amperes, amperes, (spaceCharge, saturation) => {
        const at = (a: number, b: number) => known(limitedByEmission(a, b)).current;
        const { slope, saturationSlope } = known(limitedByEmission(spaceCharge, saturation));
        const [h, s] = [spaceCharge * 1e-6, saturation * 1e-6];
        const bySpace = at(spaceCharge + h, saturation) - at(spaceCharge - h, saturation);
        const byEmission = at(spaceCharge, saturation + s) - at(spaceCharge, saturation - s);
        expect(slope).toBeCloseTo(bySpace / (2 * h), 5);
        expect(saturationSlope).toBeCloseTo(byEmission / (2 * s), 5);
      }),
      { seed: 15, numRuns: 100 },
    );
  });

  it('is nothing without emission and untouched without a limit', () => {
    expect(limitedByEmission(0.003, 0)).toEqual({ current: 0, slope: 0, saturationSlope: 0 });
    expect(known(limitedByEmission(0.003, Infinity)).current).toBe(0.003);
  });
});
