import { MU_0 } from './constants.ts';
import { arePositive, finiteOrUndefined } from './domain.ts';
import { completeElliptic } from './elliptic.ts';

/**
 * Mutual inductance in henries of two circles of fine wire on one axis.
 *
 * @param radius of the one, metres, above 0
 * @param otherRadius of the other, metres, above 0
 * @param distance between their planes, metres, either sign
 *
 * Undefined outside that, and where the circles coincide (it is infinite there). Relative error
 * below 1e-13 at every distance: the sum of the arithmetic-geometric mean does not cancel.
 * Source: J. C. Maxwell, A Treatise on Electricity and Magnetism, article 701; NIST Digital
 * Library of Mathematical Functions, 19.34.1.
 */
export function coaxialCircles(
  radius: number,
  otherRadius: number,
  distance: number,
): number | undefined {
  if (!arePositive(radius, otherRadius) || !Number.isFinite(distance)) {
    return undefined;
  }
  const farthest = Math.hypot(radius + otherRadius, distance);
  const nearest = Math.hypot(radius - otherRadius, distance);
  const m = ((2 * radius) / farthest) * ((2 * otherRadius) / farthest);
  const m1 = (nearest / farthest) ** 2;
  const shape = completeElliptic(m, m1)?.maxwell;
  return shape === undefined ? undefined : finiteOrUndefined(MU_0 * farthest * shape);
}

/**
 * Self-inductance in henries of one round turn of round wire: μ₀ a (ln(8a/r) − 1.75), with the
 * current spread evenly over the wire; `thinSkin` gives −2, all current at the surface.
 *
 * @param radius of the turn to the middle of the wire, metres, above 0
 * @param wireRadius metres, above 0, below the turn's radius
 *
 * Undefined outside that. Error of order (r/a)² : 0.3 % at r = a/10. Source: J. C. Maxwell,
 * Treatise; NBS Circular 74, formula for a circular ring.
 */
export function singleTurnInductance(
  radius: number,
  wireRadius: number,
  thinSkin = false,
): number | undefined {
  if (!arePositive(radius, wireRadius) || wireRadius >= radius) {
    return undefined;
  }
  const inside = thinSkin ? 2 : 1.75;
  return finiteOrUndefined(MU_0 * radius * (Math.log((8 * radius) / wireRadius) - inside));
}
