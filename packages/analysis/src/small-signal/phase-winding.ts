import { type Course, type CourseAt, type Place, RIGHT_ANGLE, wrapped } from './log-derivative.ts';

/** Where on the axis a growing mode is suspected: the phase falls there. */
export interface Suspect {
  /** Radians per second. */
  readonly radians: number;
  /** Growth that such a fall speaks of, nepers per second. */
  readonly growth: number;
}

/** How the phase of the determinant winds round the half plane of growth. */
export interface Winding {
  /** Roots that grow between the frequencies: two for an oscillation, one for plain growth. */
  readonly growing: number;
  /** Turns that were counted before rounding: close to a whole number, or the count is not sure. */
  readonly turns: number;
  /** The strongest first. */
  readonly suspects: readonly Suspect[];
  /** Places at which the determinant was asked for. */
  readonly places: number;
}

/** Logarithm that the determinant may change by in one step: roots are never passed unseen. */
const MOST_CHANGE = 1;

/** How well the slopes at both ends must foretell a step. */
const AGREEMENT = 0.25;

/** The shortest step, in the logarithm of the frequency or in radians of angle. */
const SHORTEST = 1e-7;

/** How a path is followed. */
export interface Gait {
  /** The longest step, in the logarithm of the frequency or in radians of angle. */
  readonly longest: number;
  /** Steps after which it is given up. */
  readonly mostSteps: number;
}

const USUAL_GAIT: Gait = { longest: 0.1, mostSteps: 20_000 };

/**
 * Counts the growing roots of a network between two frequencies in hertz by the principle of the
 * argument: the phase of its determinant round a closed contour, from the axis of growth out at
 * the upper frequency, down the axis of steady turning and back at the lower one. The other half
 * of the contour is its mirror. Steps are as short as the slope of the determinant's logarithm
 * asks for, so that no root near the path is passed unseen.
 *
 * Undefined where the determinant could not be had.
 */
export function phaseWinding(
  course: CourseAt,
  low: number,
  high: number,
  gait = USUAL_GAIT,
): Winding | undefined {
  if (!(low > 0 && high > low) || !Number.isFinite(high)) return undefined;
  const small = Math.log(2 * Math.PI * low);
  const great = Math.log(2 * Math.PI * high);
  const walk: Walk = { course, gait, phase: 0, steps: 0, falls: [] };
  const legs: readonly [from: Place, to: Place][] = [
    [
      { size: great, angle: 0 },
      { size: great, angle: RIGHT_ANGLE },
    ],
    [
      { size: great, angle: RIGHT_ANGLE },
      { size: small, angle: RIGHT_ANGLE },
    ],
    [
      { size: small, angle: RIGHT_ANGLE },
      { size: small, angle: 0 },
    ],
  ];
  for (const [from, to] of legs) if (!along(walk, from, to)) return undefined;
  const turns = walk.phase / Math.PI;
  return {
    growing: Math.max(0, Math.round(turns)),
    turns,
    suspects: walk.falls
      .map(({ size, slope }) => {
        const radians = Math.exp(size);
        return { radians, growth: radians / slope };
      })
      .sort((a, b) => a.growth - b.growth),
    places: walk.steps,
  };
}

interface Walk {
  readonly course: CourseAt;
  readonly gait: Gait;
  phase: number;
  steps: number;
  readonly falls: { readonly size: number; readonly slope: number }[];
}

/** Follows the phase along one leg, on which either size or angle changes. */
function along(walk: Walk, from: Place, to: Place): boolean {
  const { longest, mostSteps } = walk.gait;
  const isTurn = from.size === to.size;
  const length = isTurn ? to.angle - from.angle : to.size - from.size;
  const sense = Math.sign(length);
  const whole = Math.abs(length);
  const at = (done: number): Place =>
    isTurn
      ? { size: from.size, angle: done >= whole ? to.angle : from.angle + sense * done }
      : { size: done >= whole ? to.size : from.size + sense * done, angle: from.angle };
  let here = courseOff(walk, at(0));
  if (!here) return false;
  let done = 0;
  let before = 0;
  let falling: { size: number; slope: number } | undefined;
  let step = longest;
  while (done < whole) {
    step = Math.min(step, longest, (0.7 * MOST_CHANGE) / urgeOf(here), whole - done);
    step = Math.max(step, SHORTEST);
    const next = courseOff(walk, at(done + step));
    if (!next || walk.steps > mostSteps) return false;
    // On an arc the logarithm of the frequency changes by j times the angle.
    const half = 0.5 * step * sense;
    const sumRe = half * (here.slopeRe + next.slopeRe);
    const sumIm = half * (here.slopeIm + next.slopeIm);
    const foretold = isTurn ? sumRe : sumIm;
    const off = wrapped(next.phase - here.phase - foretold);
    const aside = next.logarithm - here.logarithm - (isTurn ? 0 - sumIm : sumRe);
    const fits =
      off * off + aside * aside < AGREEMENT * AGREEMENT && step * urgeOf(next) < MOST_CHANGE;
    if (!fits && step > SHORTEST) {
      step /= 2;
      continue;
    }
    walk.phase += foretold + off;
    done += step;
    // A fall of the phase towards higher frequencies is what a growing mode leaves behind.
    const fall = isTurn ? 0 : 0 - next.slopeIm;
    if (fall > 0 && fall > before) falling = { size: at(done).size, slope: fall };
    if (fall < before && falling) {
      walk.falls.push(falling);
      falling = undefined;
    }
    before = fall;
    here = next;
    step *= 2;
  }
  return true;
}

function urgeOf({ urge }: Course): number {
  return Math.max(1e-3, urge);
}

/** The course at a place, or a hair beside it where a root lies there. */
function courseOff(walk: Walk, place: Place): Course | undefined {
  walk.steps++;
  return walk.course(place) ?? walk.course({ size: place.size + SHORTEST, angle: place.angle });
}
