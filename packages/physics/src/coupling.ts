import { areFinite, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Coefficient of coupling M/√(L₁L₂), no unit, −1 … 1 for any pair that can exist.
 *
 * @param mutual M, henries, either sign
 * @param first @param second self-inductances, henries, above 0
 *
 * Undefined outside that. Exact.
 */
export function couplingCoefficient(
  mutual: number,
  first: number,
  second: number,
): number | undefined {
  if (!areFinite(mutual) || !arePositive(first, second)) {
    return undefined;
  }
  return finiteOrUndefined(mutual / (Math.sqrt(first) * Math.sqrt(second)));
}

/**
 * Inductance in henries of two windings in series, L₁ + L₂ + 2M: aiding with M positive,
 * opposing with M negative. Undefined unless all are finite and both self-inductances above 0.
 * Exact. Source: NBS Circular 74, on the variometer.
 */
export function seriesInductance(
  first: number,
  second: number,
  mutual: number,
): number | undefined {
  if (!areFinite(mutual) || !arePositive(first, second)) {
    return undefined;
  }
  return finiteOrUndefined(first + second + 2 * mutual);
}

/**
 * Mutual inductance in henries of a winding turned inside another, such as a tickler.
 *
 * @param aligned mutual inductance with the axes in line, henries
 * @param angle between the axes, radians: 0 full aiding, π/2 none, π full opposing
 *
 * Undefined unless finite. The cosine is exact in a uniform field. Against the double integral
 * over inclined circles, in shares of the aligned value: a small rotor at the end of its stator
 * keeps to it within 0.06, one in the middle within 0.08, one that nearly fills it (radius 0.83)
 * within 0.17; all are exact in line and at right angles.
 * Source: NBS Circular 74, on the variometer (from memory).
 */
export function turnedMutualInductance(aligned: number, angle: number): number | undefined {
  return areFinite(aligned, angle) ? finiteOrUndefined(aligned * Math.cos(angle)) : undefined;
}

/**
 * Angle in radians between the axes at a setting of the rotor's dial given as a share of full
 * coupling: 1 in line and aiding, 0 at right angles, −1 the other way round.
 * Undefined outside −1 … 1. Exact: setting = cos(angle).
 */
export function turnOfSetting(setting: number): number | undefined {
  return setting >= -1 && setting <= 1 ? Math.acos(setting) : undefined;
}
