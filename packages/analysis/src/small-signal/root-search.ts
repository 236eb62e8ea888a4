import { wrapped } from './log-derivative.ts';
import { type ComplexFrequency, determinantAt, type TunedSystem } from './signal-system.ts';

const MOST_ITERATIONS = 40;

/** Share of a root that the last step may still move it by. */
const SETTLED = 1e-10;

/** Turning that is only rounding, against the whole. */
const STEADY = 1e-6;

/**
 * A root of the determinant by Newton's method from a place near it, in radians per second. Roots
 * found before are divided out, so that none is found twice. Undefined where it does not settle.
 *
 * The ohms of windings are those at the root's own frequency.
 */
export function findRoot(
  tuned: TunedSystem,
  start: ComplexFrequency,
  known: readonly ComplexFrequency[] = [],
): ComplexFrequency | undefined {
  let { growth, radians } = start;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const size = Math.hypot(growth, radians);
    const step = 1e-7 * size;
    const here = determinantAt(tuned, { growth, radians });
    if (!here) return { growth, radians };
    const next = determinantAt(tuned, { growth, radians: radians + step });
    if (!next) return { growth, radians: radians + step };
    // Slope of the logarithm, step being along the imaginary axis; then what is known comes off.
    const ratio = Math.exp(next.logarithm - here.logarithm);
    const turn = wrapped(next.angle - here.angle);
    const changeRe = (ratio * Math.cos(turn) - 1) / step;
    const changeIm = (ratio * Math.sin(turn)) / step;
    let slopeRe = changeIm;
    let slopeIm = 0 - changeRe;
    for (const root of known) {
      // A root comes with its mirror image, unless it does not turn.
      for (const sign of root.radians > 0 ? [1, -1] : [1]) {
        const x = growth - root.growth;
        const y = radians - sign * root.radians;
        const square = x * x + y * y;
        if (!(square > 0)) continue;
        slopeRe -= x / square;
        slopeIm += y / square;
      }
    }
    const square = slopeRe * slopeRe + slopeIm * slopeIm;
    if (!(square > 0) || !Number.isFinite(square)) return undefined;
    let moveRe = slopeRe / square;
    let moveIm = (0 - slopeIm) / square;
    const far = Math.hypot(moveRe, moveIm);
    // Far from every root one step must not lead out of the region.
    const most = 0.3 * size;
    if (far > most) {
      moveRe *= most / far;
      moveIm *= most / far;
    }
    growth -= moveRe;
    radians -= moveIm;
    if (!Number.isFinite(growth) || !Number.isFinite(radians)) return undefined;
    if (far < SETTLED * size)
      return { growth, radians: Math.abs(radians) < STEADY * size ? 0 : Math.abs(radians) };
  }
  return undefined;
}
