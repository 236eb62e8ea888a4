import ellipticSecond from '@stdlib/math-base-special-ellipe';
import ellipticFirst from '@stdlib/math-base-special-ellipk';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completeElliptic } from '../src/elliptic.ts';
import { completeEllipticFirst, completeEllipticSecond } from '../src/index.ts';
import { known, relativeError } from './support.ts';

describe('complete elliptic integrals', () => {
  it('agree with an independent library for every parameter below 1', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 0.9999, noNaN: true }), (m) => {
        expect(relativeError(completeEllipticFirst(m), ellipticFirst(m))).toBeLessThan(1e-13);
        expect(relativeError(completeEllipticSecond(m), ellipticSecond(m))).toBeLessThan(1e-13);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it("satisfy Legendre's relation E K' + E' K − K K' = π/2", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (m) => {
        const one = known(completeElliptic(m));
        const other = known(completeElliptic(1 - m, m));
        const relation =
          one.second * other.first + other.second * one.first - one.first * other.first;
        expect(relativeError(relation, Math.PI / 2)).toBeLessThan(1e-12);
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('have E(1) = 1 while K(1) is endless', () => {
    expect(completeEllipticSecond(1)).toBe(1);
    expect(completeEllipticFirst(1)).toBeUndefined();
  });
});
