import { type Course, courseAt, type Place, wrapped } from './log-derivative.ts';
import type { TunedSystem } from './signal-system.ts';

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
  /** Determinants that were reckoned. */
  readonly evaluations: number;
}

/** Logarithm that the determinant may change by in one step: roots are never passed unseen. */
const MOST_CHANGE = 1;

/** How well the slopes at both ends must foretell a step. */
const AGREEMENT = 0.25;

const LONGEST = 0.1;
const SHORTEST = 1e-7;

/** Steps beyond which it is given up. */
const MOST_STEPS = 20_000;

/**
 * Counts the growing roots of a network between two frequencies in hertz by the principle of the
 * argument: the phase of its determinant round a closed contour, from the axis of growth out at
 * the upper frequency, down the axis of steady turning and back at the lower one. The other half
 * of the contour is its mirror. Steps are as short as the slope of the determinant's logarithm
 * asks for, so that no root near the path is passed unseen.
 *
 * Undefined where the determinant could not be had.
 */
export function phaseWinding(tuned: TunedSystem, low: number, high: number): Winding | undefined {
  if (!(low > 0 && high > low) || !Number.isFinite(high)) return undefined;
  const right = Math.PI / 2;
  const small = Math.log(2 * Math.PI * low);
  const great = Math.log(2 * Math.PI * high);
  const walk: Walk = { tuned, phase: 0, steps: 0, falls: [] };
  const legs: readonly [from: Place, to: Place][] = [
    [
      { size: great, angle: 0 },
      { size: great, angle: right },
    ],
    [
      { size: great, angle: right },
      { size: small, angle: right },
    ],
    [
      { size: small, angle: right },
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
    evaluations: 2 * walk.steps,
  };
}

interface Walk {
  readonly tuned: TunedSystem;
  phase: number;
  steps: number;
  readonly falls: { readonly size: number; readonly slope: number }[];
}

/** Follows the phase along one leg, on which either size or angle changes. */
function along(walk: Walk, from: Place, to: Place): boolean {
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
  let step = LONGEST;
  while (done < whole) {
    step = Math.min(step, LONGEST, (0.7 * MOST_CHANGE) / slopeOf(here), whole - done);
    step = Math.max(step, SHORTEST);
    const next = courseOff(walk, at(done + step));
    if (!next || walk.steps > MOST_STEPS) return false;
    const foretold = step * sense * (turned(here, isTurn).phase + turned(next, isTurn).phase) * 0.5;
    const grown = step * sense * (turned(here, isTurn).size + turned(next, isTurn).size) * 0.5;
    const off = wrapped(next.phase - here.phase - foretold);
    const fits =
      Math.hypot(off, next.logarithm - here.logarithm - grown) < AGREEMENT &&
      step * slopeOf(next) < MOST_CHANGE;
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

function slopeOf({ slopeRe, slopeIm }: Course): number {
  return Math.max(1e-3, Math.hypot(slopeRe, slopeIm));
}

/** The slope along the path: on an arc the logarithm of frequency changes by j times the angle. */
function turned({ slopeRe, slopeIm }: Course, isTurn: boolean) {
  return isTurn ? { size: 0 - slopeIm, phase: slopeRe } : { size: slopeRe, phase: slopeIm };
}

/** The course at a place, or a hair beside it where a root lies there. */
function courseOff(walk: Walk, place: Place): Course | undefined {
  walk.steps++;
  return (
    courseAt(walk.tuned, place) ??
    courseAt(walk.tuned, { size: place.size + SHORTEST, angle: place.angle })
  );
}
