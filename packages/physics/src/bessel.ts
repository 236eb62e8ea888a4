/** Above this the asymptotic series is better than the power series. */
const LARGE = 30;

/**
 * Natural logarithm of the modified Bessel function I₀(x). No unit, 0 or more.
 *
 * @param x any finite number
 *
 * Undefined otherwise. Relative error below 1e-12, never overflows.
 * Source: NIST Digital Library of Mathematical Functions, 10.25.2 and 10.40.1.
 */
export function logBesselI0(x: number): number | undefined {
  if (!Number.isFinite(x)) {
    return undefined;
  }
  const size = Math.abs(x);
  if (size > LARGE) {
    let term = 1;
    let sum = 1;
    for (let k = 1; k < 15; k += 1) {
      term *= (2 * k - 1) ** 2 / (8 * size * k);
      sum += term;
    }
    return size - Math.log(2 * Math.PI * size) / 2 + Math.log(sum);
  }
  const quarter = (size * size) / 4;
  let term = 1;
  let rest = 0;
  for (let k = 1; k < 100 && term > 1e-18 * rest; k += 1) {
    term *= quarter / (k * k);
    rest += term;
  }
  return Math.log1p(rest);
}
