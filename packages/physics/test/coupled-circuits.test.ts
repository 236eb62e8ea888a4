import { describe, expect, it } from 'vitest';
import { coupledPeaks, coupledResponse, criticalCoupling, splitFrequencies } from '../src/index.ts';
import { known } from './support.ts';

describe('two tuned circuits coupled', () => {
  // 2kQ/(1 + (kQ)²), coupled-circuit theory of the handbooks.
  it.each([
    [0.25, 0.47059],
    [0.5, 0.8],
    [0.75, 0.96],
    [1, 1],
    [1.5, 0.92308],
    [2, 0.8],
    [3, 0.6],
    [4, 0.47059],
  ])('pass at kQ %f in tune %f of the most they can', (coupling, response) => {
    expect(known(coupledResponse(coupling))).toBeCloseTo(response, 5);
  });

  // √((kQ)² − 1), same theory.
  it.each([
    [1, 0],
    [1.5, 1.118],
    [2, 1.732],
    [3, 2.828],
    [4, 3.873],
  ])('show humps at kQ %f, 2QΔf/f₀ = %f', (coupling, place) => {
    expect(known(coupledPeaks(coupling))).toBeCloseTo(place, 3);
  });

  it('reach the full response again on the humps', () => {
    expect(known(coupledResponse(3, known(coupledPeaks(3))))).toBeCloseTo(1, 12);
  });

  it('pass most in tune at critical coupling, 1/√(Q₁Q₂)', () => {
    expect(known(criticalCoupling(100, 100))).toBeCloseTo(0.01, 12);
    expect(known(criticalCoupling(50, 200))).toBeCloseTo(0.01, 12);
  });

  it('split without loss to f₀/√(1 ± k)', () => {
    const [low, high] = known(splitFrequencies(1e6, 0.19));
    expect(low).toBeCloseTo(1e6 / Math.sqrt(1.19), 3);
    expect(high).toBeCloseTo(1e6 / 0.9, 3);
  });
});
