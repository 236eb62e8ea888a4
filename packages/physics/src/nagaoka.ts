import { completeElliptic } from './elliptic.ts';

/** Above this diameter over length the elliptic form starts to cancel and the series is exact. */
const SHORT_COIL = 300;

/**
 * Nagaoka's coefficient: what the finite length of a single-layer coil leaves of the inductance
 * of a slice of the same length out of an endless one. No unit.
 *
 * @param diameterOverLength mean diameter over length of the winding, 2a/b.
 *
 * Range: 0 (endless) to any finite positive ratio, otherwise undefined. Relative error below
 * 1e-10. Source: H. Nagaoka, Journal of the College of Science, Tokyo, 27 (1909), after
 * L. Lorenz (1879); very short coils by the series of Lord Rayleigh and W. D. Niven (1881).
 */
export function nagaokaCoefficient(diameterOverLength: number): number | undefined {
  const x = diameterOverLength;
  if (!Number.isFinite(x) || x < 0) {
    return undefined;
  }
  if (x > SHORT_COIL) {
    const logarithm = Math.log(4) + Math.log(x);
    const square = 1 / (8 * x * x);
    return (2 / (Math.PI * x)) * (logarithm - 0.5 + square * (logarithm + 0.25));
  }
  const complement = 1 / (1 + x * x);
  const m = x * x * complement;
  const k = x * Math.sqrt(complement);
  const integrals = completeElliptic(m, complement);
  if (integrals === undefined) {
    return undefined;
  }
  const bracket = complement * integrals.difference + integrals.second - k;
  return (4 / (3 * Math.PI * Math.sqrt(complement))) * bracket;
}
