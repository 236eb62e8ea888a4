import { areFinite, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Coefficient of coupling at which two tuned circuits pass the most: 1/√(Q₁Q₂), no unit.
 * Undefined unless both Q are above 0. Exact for circuits tuned alike.
 */
export function criticalCoupling(firstQ: number, secondQ: number): number | undefined {
  return arePositive(firstQ, secondQ)
    ? finiteOrUndefined(1 / Math.sqrt(firstQ) / Math.sqrt(secondQ))
    : undefined;
}

/**
 * Current in the second of two equal tuned circuits over the most it can have (at critical
 * coupling, in tune). No unit, 0 … 1: 2κ/|(1 + jy)² + κ²|.
 *
 * @param coupling κ = kQ, 0 or more: 1 is critical
 * @param detuning y = 2Q Δf/f₀, 0 when left out
 *
 * Undefined outside that. Exact for small detuning, as the universal resonance curve.
 * Source: coupled-circuit theory of the handbooks.
 */
export function coupledResponse(coupling: number, detuning = 0): number | undefined {
  if (!(coupling >= 0) || coupling === Infinity || !Number.isFinite(detuning)) {
    return undefined;
  }
  const real = 1 - detuning * detuning + coupling * coupling;
  return finiteOrUndefined((2 * coupling) / Math.hypot(real, 2 * detuning));
}

/**
 * Where the two humps lie, as 2Q Δf/f₀ on either side: √(κ² − 1), or 0 up to critical coupling.
 * Undefined for a negative coupling κ = kQ. Exact for small detuning.
 */
export function coupledPeaks(coupling: number): number | undefined {
  if (!(coupling >= 0) || coupling === Infinity) {
    return undefined;
  }
  return coupling <= 1 ? 0 : Math.sqrt(coupling - 1) * Math.sqrt(coupling + 1);
}

/**
 * The two natural frequencies in hertz of equal circuits without loss, f₀/√(1 ± k), low first.
 *
 * @param frequency of each alone, hertz, above 0 @param k coefficient of coupling, 0 up to but
 * not including 1
 *
 * Undefined outside that. Exact.
 */
export function splitFrequencies(
  frequency: number,
  k: number,
): readonly [low: number, high: number] | undefined {
  if (!arePositive(frequency) || !(k >= 0 && k < 1)) {
    return undefined;
  }
  const low = frequency / Math.sqrt(1 + k);
  const high = frequency / Math.sqrt(1 - k);
  return areFinite(low, high) ? [low, high] : undefined;
}
