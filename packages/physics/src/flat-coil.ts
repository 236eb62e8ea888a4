import type { ApproximateInductance } from './approximation.ts';
import { INCH } from './constants.ts';
import { arePositive } from './domain.ts';

/**
 * Inductance in henries of a flat spiral or spiderweb coil, a²N²/(8a + 11c) microhenries in
 * inches, with its error.
 *
 * @param turns 8 or more
 * @param radius a, mean of inner and outer radius, metres
 * @param depth c, outer less inner radius, metres: 0.1 to 1.9 mean radii
 *
 * Undefined outside that. Against the sum over turns with wire from a third of the pitch up to
 * touching: within 5 % from 20 turns and 0.3 to 1.3 radii of depth, within 8 % from 8 turns,
 * up to 13 % for a depth outside that.
 * Source: H. A. Wheeler, "Simple Inductance Formulas for Radio Coils", Proc. IRE 16 (1928) 1398
 * (from memory); bands computed.
 */
export function flatCoilInductance(
  turns: number,
  radius: number,
  depth: number,
): ApproximateInductance | undefined {
  const shape = depth / radius;
  if (!arePositive(turns, radius, depth) || turns < 8 || shape < 0.1 || shape > 1.9) {
    return undefined;
  }
  const a = radius / INCH;
  const inductance = (1e-6 * (a * turns) ** 2) / (8 * a + (11 * depth) / INCH);
  const common = shape >= 0.3 && shape <= 1.3;
  return Number.isFinite(inductance)
    ? { inductance, relativeError: common ? (turns >= 20 ? 0.05 : 0.08) : 0.13 }
    : undefined;
}
