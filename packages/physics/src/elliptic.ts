import { allFiniteOrUndefined } from './domain.ts';

/** The complete elliptic integrals of one parameter, by one arithmetic-geometric mean. */
export interface CompleteElliptic {
  /** First kind, K. */
  readonly first: number;
  /** Second kind, E. */
  readonly second: number;
  /** (1 − m/2) K − E, free of cancellation: the shape of Maxwell's mutual inductance. */
  readonly maxwell: number;
  /** (K − E) / m, free of cancellation; π/4 at m = 0. */
  readonly difference: number;
}

/**
 * Complete elliptic integrals K, E and two combinations that the coil formulas need, by the
 * arithmetic-geometric mean. No unit; argument m = k² (the parameter) and, where it is known
 * better than 1 − m can be subtracted, its complement 1 − m.
 *
 * Range: finite m < 1 with a complement > 0, otherwise undefined. Relative error below 1e-14.
 * Source: A. M. Legendre and C. F. Gauss as in NIST Digital Library of Mathematical Functions,
 * 19.8.1 and 19.8.6.
 */
export function completeElliptic(m: number, complement = 1 - m): CompleteElliptic | undefined {
  if (!Number.isFinite(m) || m >= 1 + 1e-15 || !(complement > 0) || complement === Infinity) {
    return undefined;
  }
  let arithmetic = 1;
  let geometric = Math.sqrt(complement);
  // The differences are carried as c/m, by c' = c²/(4a'), so that nothing is lost at small m.
  let next = (arithmetic + geometric) / 2;
  let differenceOverM = 1 / (4 * next);
  let weight = 1;
  let sum = 0;
  for (let round = 0; round < 60; round += 1) {
    geometric = Math.sqrt(arithmetic * geometric);
    arithmetic = next;
    const term = weight * m * differenceOverM * differenceOverM;
    sum += term;
    next = (arithmetic + geometric) / 2;
    if (Math.abs(arithmetic - geometric) <= 1e-15 * arithmetic) {
      break;
    }
    differenceOverM = (m * differenceOverM * differenceOverM) / (4 * next);
    weight *= 2;
  }
  const first = Math.PI / (2 * next);
  const difference = first * (0.5 + sum);
  return allFiniteOrUndefined({
    first,
    second: first - m * difference,
    maxwell: first * m * sum,
    difference,
  });
}

/**
 * Complete elliptic integral of the first kind K(m), m = k²; no unit.
 * Range: m < 1, otherwise undefined (it is infinite at 1). Relative error below 1e-14.
 * Source: NIST Digital Library of Mathematical Functions, 19.8.5.
 */
export function completeEllipticFirst(m: number): number | undefined {
  return completeElliptic(m)?.first;
}

/**
 * Complete elliptic integral of the second kind E(m), m = k²; no unit.
 * Range: m ≤ 1, otherwise undefined. Relative error below 1e-14.
 * Source: NIST Digital Library of Mathematical Functions, 19.8.6.
 */
export function completeEllipticSecond(m: number): number | undefined {
  return m === 1 ? 1 : completeElliptic(m)?.second;
}
