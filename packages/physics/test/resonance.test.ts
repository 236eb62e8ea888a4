import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capacitiveReactance,
  halfPowerBandwidth,
  inductiveReactance,
  parallelResonantImpedance,
  resonanceProduct,
  resonanceResponse,
  resonantFrequency,
  universalResonanceCurve,
  wavelength,
} from '../src/index.ts';
import { known, relativeError } from './support.ts';

describe('resonance', () => {
  // Computed independently: kilocycles, metres by the Bureau of Standards figure 299,820 of 1923
  // (from memory) and by the velocity of light, L·C in µH·µµF, µµF for 200 and for 250 µH.
  it.each([
    [500, 599.64, 599.585, 101321.2, 506.61, 405.28],
    [550, 545.127, 545.077, 83736.5, 418.68, 334.95],
    [600, 499.7, 499.654, 70361.9, 351.81, 281.45],
    [700, 428.314, 428.275, 51694.5, 258.47, 206.78],
    [832.757, 360.033, 360.0, 36526.1, 182.63, 146.1],
    [1000, 299.82, 299.792, 25330.3, 126.65, 101.32],
    [1200, 249.85, 249.827, 17590.5, 87.95, 70.36],
    [1350, 222.089, 222.069, 13898.7, 69.49, 55.59],
    [1500, 199.88, 199.862, 11257.9, 56.29, 45.03],
  ])('at %f kc is %f or %f metres with LC %f', (kc, period, metres, product, c200, c250) => {
    const frequency = kc * 1e3;
    expect(relativeError(wavelength(frequency, true), period)).toBeLessThan(3e-6);
    expect(relativeError(wavelength(frequency), metres)).toBeLessThan(3e-6);
    const lc = known(resonanceProduct(frequency));
    expect(relativeError(lc, product * 1e-18)).toBeLessThan(5e-6);
    expect(relativeError(lc / 200e-6, c200 * 1e-12)).toBeLessThan(1e-4);
    expect(relativeError(lc / 250e-6, c250 * 1e-12)).toBeLessThan(1.2e-4);
  });

  // LC in µH·µF by wavelength, velocity of light exact, computed independently.
  it.each([
    [200, 0.011274],
    [250, 0.017615],
    [300, 0.025365],
    [360, 0.036526],
    [400, 0.045094],
    [450, 0.057072],
    [500, 0.070459],
    [550, 0.085256],
    [600, 0.101462],
    [1000, 0.281838],
  ])('at %f metres has LC %f', (metres, product) => {
    const lc = known(resonanceProduct(known(wavelength(metres))));
    expect(relativeError(lc, product * 1e-12)).toBeLessThan(5e-5);
  });

  it('follows λ = 1884 √(LC), metres from microhenries and microfarads', () => {
    // NBS Circular 74 (1918) (from memory); exactly 1883.65.
    const metres = known(wavelength(known(resonantFrequency(1e-6, 1e-6))));
    expect(relativeError(metres, 1884)).toBeLessThan(2e-4);
  });

  it('asks for 7.438 times the capacity from 1500 down to 550 kc', () => {
    const ratio = known(resonanceProduct(550e3)) / known(resonanceProduct(1500e3));
    expect(ratio).toBeCloseTo(7.438, 3);
  });

  it('is where both reactances are alike', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-7, max: 1, noNaN: true }),
        fc.double({ min: 1e-13, max: 1e-5, noNaN: true }),
        (inductance, capacitance) => {
          const frequency = known(resonantFrequency(inductance, capacitance));
          const coil = inductiveReactance(inductance, frequency);
          const condenser = known(capacitiveReactance(capacitance, frequency));
          expect(relativeError(coil, condenser)).toBeLessThan(1e-12);
        },
      ),
      { seed: 11, numRuns: 100 },
    );
  });

  it('makes 125.66 kilohms of 200 microhenries with Q 100 at 1000 kc, 10 kc wide', () => {
    // ωL = 1256.637 ohms.
    expect(known(parallelResonantImpedance(200e-6, 100, 1e6))).toBeCloseTo(125663.7, 1);
    expect(halfPowerBandwidth(1e6, 100)).toBe(1e4);
  });
});

describe('the resonance curve', () => {
  // Universal curve of the textbooks, 1/(1 + 2jδQ), half power at 2δQ = 1: magnitude by Qδ.
  it.each([
    [0.1, 0.98058],
    [0.25, 0.89443],
    [0.5, Math.SQRT1_2],
    [0.75, 0.5547],
    [1, 0.44721],
    [1.5, 0.31623],
    [2, 0.24254],
    [3, 0.1644],
    [5, 0.0995],
  ])('is at Qδ %f down to %f', (x, magnitude) => {
    expect(known(universalResonanceCurve(x))).toBeCloseTo(magnitude, 5);
  });

  // Computed independently at Q 100.
  it.each([
    [1.01, 0.44899],
    [0.99, 0.44541],
  ])('exactly, at %f of resonance with Q 100, is %f', (share, magnitude) => {
    expect(known(resonanceResponse(share * 1e6, 1e6, 100))).toBeCloseTo(magnitude, 5);
  });
});
