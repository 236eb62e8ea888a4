import { describe, expect, it } from 'vitest';
import {
  bestMutualInductance,
  bestTunedTransformerGain,
  feedbackFigure,
  loadedSecondaryQ,
  millerCapacitance,
  millerConductance,
  neutralizingCapacitance,
  oscillationLimit,
  stageGain,
  steadyConductance,
  type TunedTransformer,
  tunedTransformerGain,
} from '../src/index.ts';
import { known, relativeError } from './support.ts';

describe('gain of a tube into a resistance', () => {
  // μR/(rₚ + R) with amplification and plate resistance of receiving-tube manuals of 1933 to
  // 1940 (from memory).
  it.each([
    ['01-A', 8, 10e3, 10e3, 4],
    ['01-A', 8, 10e3, 50e3, 6.6667],
    ['01-A', 8, 11e3, 100e3, 7.2072],
    ['12-A', 8.5, 5e3, 10.8e3, 5.8101],
    ['99', 6.6, 15.5e3, 50e3, 5.0382],
    ['40', 30, 150e3, 250e3, 18.75],
    ['30', 9.3, 10.3e3, 100e3, 8.4316],
    ['27', 9, 9e3, 20e3, 6.2069],
  ])('%s with μ %f, %f ohms into %f ohms is %f', (_, mu, plate, load, gain) => {
    expect(known(stageGain(mu, plate, load))).toBeCloseTo(gain, 4);
  });
});

describe('what the plate does to the grid', () => {
  // J. M. Miller, Bureau of Standards Scientific Paper 351 (1919) (from memory), with the
  // capacities of an 01-A, 8.1 and 3.1 µµF (receiving-tube manuals, from memory).
  it.each([
    [6.6667, 65.2],
    [4, 43.6],
  ])('an 01-A with a gain of %f has an input capacity of %f µµF', (gain, capacity) => {
    expect(known(millerCapacitance(3.1e-12, 8.1e-12, gain)) * 1e12).toBeCloseTo(capacity, 2);
  });

  it('a coil in the plate feeds the grid, a condenser loads it', () => {
    // Same paper: the sign of the input conductance.
    expect(known(millerConductance(1e6, 8.1e-12, 5, Math.PI / 4))).toBeLessThan(0);
    expect(known(millerConductance(1e6, 8.1e-12, 5, -Math.PI / 4))).toBeGreaterThan(0);
    expect(millerConductance(1e6, 8.1e-12, 5, 0)).toBe(0);
  });

  it('a neutralizing winding of a third of the turns wants three times the capacity', () => {
    expect(known(neutralizingCapacitance(8.1e-12, 15, 5))).toBeCloseTo(24.3e-12, 18);
  });
});

const stage: TunedTransformer = {
  mu: 8,
  plateResistance: 10e3,
  frequency: 1e6,
  secondary: 200e-6,
  q: 100,
};

describe('a tube feeding a tuned transformer', () => {
  // F. E. Terman, Radio Engineering (1932) (from memory); figures computed independently.
  it('does best with 56.419 µH of mutual inductance: a gain of 14.1796', () => {
    expect(relativeError(bestMutualInductance(stage), 56.419e-6)).toBeLessThan(1e-5);
    expect(relativeError(bestTunedTransformerGain(stage), 14.1796)).toBeLessThan(1e-5);
  });

  it.each([
    [20, 8.931, 88.8],
    [40, 13.38, 66.5],
  ])('with %f µH has a gain of %f and leaves a Q of %f', (mutual, gain, q) => {
    expect(relativeError(tunedTransformerGain(stage, mutual * 1e-6), gain)).toBeLessThan(1e-4);
    expect(known(loadedSecondaryQ(stage, mutual * 1e-6))).toBeCloseTo(q, 0);
  });

  it('agrees with the exact meshes, 12.3345, for 15 µH of primary coupled 0.6', () => {
    // Solved independently, secondary retuned.
    expect(relativeError(tunedTransformerGain(stage, 32.863e-6), 12.3345)).toBeLessThan(1e-4);
  });
});

describe('whether a tuned stage oscillates', () => {
  // B. J. Thompson, Proc. IRE 19 (1931) 421, abstract.
  it.each([
    [1, 2],
    [2, 1],
    [3, 0.764],
    [4, 0.667],
  ])('%i like stages in a row may reach %f', (stages, limit) => {
    expect(oscillationLimit(stages)).toBe(limit);
  });

  const circuit = 125_663.7;
  // 200 µH, Q 100, both sides at 1000 kc; tubes by receiving-tube manuals (from memory).
  // Figures computed independently.
  it.each([
    ['01-A', 800e-6, 8.1e-12, 1 / (1 / circuit + 1 / 10e3), 47.4],
    ['22', 500e-6, 0.02e-12, 1 / (1 / circuit + 1 / 325e3), 0.716],
    ['24-A', 1050e-6, 0.007e-12, 1 / (1 / circuit + 1 / 600e3), 0.603],
  ])('a %s stands where it should', (_, gm, gridPlate, plate, figure) => {
    expect(relativeError(feedbackFigure(gm, 1e6, gridPlate, circuit, plate), figure)).toBeLessThan(
      0.002,
    );
  });

  it('a stage loaded to the steady conductance stands exactly at the limit', () => {
    const conductance = known(steadyConductance(800e-6, 1e6, 8.1e-12, 2));
    const figure = feedbackFigure(800e-6, 1e6, 8.1e-12, 1 / conductance, 1 / conductance);
    expect(relativeError(figure, 1)).toBeLessThan(1e-12);
  });
});
