/** Kelvin's functions of order nought and their slopes at one argument. */
export interface KelvinFunctions {
  readonly ber: number;
  readonly bei: number;
  readonly berSlope: number;
  readonly beiSlope: number;
}

/** Beyond this the power series loses more than six of its sixteen figures. */
const LARGEST = 40;

/**
 * Kelvin's functions ber x, bei x and their derivatives, by power series. No unit.
 *
 * Range 0 ≤ x ≤ 40, otherwise undefined. Relative error below 1e-10 up to 20, 1e-7 at 40.
 * Source: Lord Kelvin (1889); NIST Digital Library of Mathematical Functions, 10.65.1.
 */
export function kelvinFunctions(x: number): KelvinFunctions | undefined {
  if (!(x >= 0 && x <= LARGEST)) {
    return undefined;
  }
  const quarter = (x * x) / 4;
  // Terms of I₀ at x·√j: (x²/4)^k j^k / (k!)², whose powers of j go round real and imaginary.
  let term = 1;
  let [ber, bei, berSlope, beiSlope] = [1, 0, 0, 0];
  for (let k = 1; k < 200; k += 1) {
    term *= quarter / (k * k);
    const signed = k % 4 < 2 ? term : -term;
    const slope = x === 0 ? 0 : (2 * k * signed) / x;
    if (k % 2 === 0) {
      ber += signed;
      berSlope += slope;
    } else {
      bei += signed;
      beiSlope += slope;
    }
    if (k > x && term < 1e-18) {
      break;
    }
  }
  return { ber, bei, berSlope, beiSlope };
}
