import { wrapped } from './log-derivative.ts';
import { type ComplexFrequency, determinantAt, type TunedSystem } from './tuned-system.ts';

/** A search that has not settled by then runs in circles. */
const MOST_ITERATIONS = 40;

/** Share of a root that the last step may still move it by. */
const SETTLED = 1e-10;

/** Turning that is only rounding, against the whole. */
const STEADY = 1e-6;

/** Step of a slope that is reckoned by difference, as a share of the frequency. */
const STEP = 1e-7;

/** How the logarithm of a determinant goes with the complex frequency. */
export interface LogSlope {
  readonly re: number;
  readonly im: number;
}

/** The slope at any complex frequency; undefined at a root. */
export type LogSlopeAt = (at: ComplexFrequency) => LogSlope | undefined;

/** The slope for the whole determinant of a system, along the axis of steady turning. */
export function logSlopeOf(tuned: TunedSystem): LogSlopeAt {
  return ({ growth, radians }) => {
    const step = STEP * Math.sqrt(growth * growth + radians * radians);
    const here = determinantAt(tuned, { growth, radians });
    const next = determinantAt(tuned, { growth, radians: radians + step });
    if (!here || !next) return undefined;
    const ratio = Math.exp(next.logarithm - here.logarithm);
    const turn = wrapped(next.angle - here.angle);
    // The step being imaginary, what changes is turned back by a right angle.
    return { re: (ratio * Math.sin(turn)) / step, im: (1 - ratio * Math.cos(turn)) / step };
  };
}

/**
 * A root of a determinant by Newton's method from a place near it, in radians per second. Roots
 * found before are divided out, so that none is found twice. Undefined where it does not settle.
 *
 * The ohms of windings are those at the root's own frequency.
 *
 * @param settled share of the root that the last step may still move it by
 */
export function findRoot(
  slopeAt: LogSlopeAt,
  start: ComplexFrequency,
  known: readonly ComplexFrequency[] = [],
  settled = SETTLED,
): ComplexFrequency | undefined {
  let { growth, radians } = start;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const slope = slopeAt({ growth, radians });
    if (!slope) return { growth, radians };
    const size = Math.sqrt(growth * growth + radians * radians);
    let { re: slopeRe, im: slopeIm } = slope;
    for (const root of known) {
      // A root comes with its mirror image, unless it does not turn.
      for (let sign = 1; sign >= (root.radians > 0 ? -1 : 1); sign -= 2) {
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
    const far = Math.sqrt(moveRe * moveRe + moveIm * moveIm);
    // Far from every root one step must not lead out of the region.
    const most = 0.3 * size;
    if (far > most) {
      moveRe *= most / far;
      moveIm *= most / far;
    }
    growth -= moveRe;
    radians -= moveIm;
    if (!Number.isFinite(growth) || !Number.isFinite(radians)) return undefined;
    if (far < settled * size)
      return { growth, radians: Math.abs(radians) < STEADY * size ? 0 : Math.abs(radians) };
  }
  return undefined;
}
