import type { ApproximateInductance } from './approximation.ts';
import { INCH } from './constants.ts';
import { arePositive } from './domain.ts';

/**
 * Error bands of the multi-layer formula by shape, found by comparison with
 * `thickCoilInductance`; the first that holds the shape counts.
 */
const BANDS = [
  { length: [0.7, 1.5], depth: [0.2, 1.3], error: 0.02 },
  { length: [0.2, 2], depth: [0.1, 1], error: 0.04 },
  { length: [0.1, 3], depth: [0.05, 1.6], error: 0.09 },
  { length: [0.02, 10], depth: [0.02, 1.9], error: 0.25 },
] as const;

/**
 * Inductance in henries of a coil of many layers, 0.8 a²N²/(6a + 9b + 10c) microhenries in
 * inches, with its error.
 *
 * @param turns number of turns, above 0
 * @param radius a, mean radius, metres
 * @param length b, along the axis, metres: 0.02 to 10 radii
 * @param depth c, outer less inner radius, metres: 0.02 to 1.9 radii
 *
 * Undefined outside that. Within 2 % where the three terms of the denominator are near equal,
 * up to 25 % at the extremes; with few turns of wire that does not fill the section add the wire
 * correction of `thickCoilInductance`, which is also the exact routine.
 * Source: H. A. Wheeler, "Simple Inductance Formulas for Radio Coils", Proc. IRE 16 (1928) 1398
 * (from memory); bands computed.
 */
export function multilayerInductance(
  turns: number,
  radius: number,
  length: number,
  depth: number,
): ApproximateInductance | undefined {
  if (!arePositive(turns, radius, length, depth)) {
    return undefined;
  }
  const band = BANDS.find(
    (shape) => holds(shape.length, length / radius) && holds(shape.depth, depth / radius),
  );
  const a = radius / INCH;
  const denominator = 6 * a + (9 * length + 10 * depth) / INCH;
  const inductance = (0.8e-6 * (a * turns) ** 2) / denominator;
  return band === undefined || !Number.isFinite(inductance)
    ? undefined
    : { inductance, relativeError: band.error };
}

function holds([low, high]: readonly [number, number], value: number): boolean {
  return value >= low && value <= high;
}
