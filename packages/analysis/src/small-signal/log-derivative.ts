import { type ComplexFrequency, determinantAt, type TunedSystem } from './tuned-system.ts';

/** A place in the plane of complex frequencies by its logarithm: size and angle. */
export interface Place {
  /** Natural logarithm of radians per second. */
  readonly size: number;
  /** 0 on the axis of growth alone, a right angle on that of steady turning. */
  readonly angle: number;
}

/** The angle of the axis on which nothing grows or dies. */
export const RIGHT_ANGLE = Math.PI / 2;

/** What a determinant does at a place. */
export interface Course {
  readonly logarithm: number;
  readonly phase: number;
  /** How its logarithm goes with that of the complex frequency. */
  readonly slopeRe: number;
  readonly slopeIm: number;
  /** How fast what may turn soon goes, without what is known to go evenly: sets the steps. */
  readonly urge: number;
}

/** The course of a determinant at any place; undefined at a root. */
export type CourseAt = (place: Place) => Course | undefined;

/** A step that is small against any root's distance that can matter, and large against rounding. */
const STEP = 1e-6;

export function frequencyOf({ size, angle }: Place): ComplexFrequency {
  const radius = Math.exp(size);
  // Exactly on the axis, where rounding must not let a steady mode grow.
  const growth = angle === RIGHT_ANGLE ? 0 : radius * Math.cos(angle);
  return { growth, radians: radius * Math.sin(angle) };
}

/** The course of the whole determinant of a system. */
export function courseOf(tuned: TunedSystem): CourseAt {
  return (place) => {
    const here = determinantAt(tuned, frequencyOf(place));
    const next = determinantAt(tuned, frequencyOf({ ...place, size: place.size + STEP }));
    if (!here || !next) return undefined;
    const slopeRe = (next.logarithm - here.logarithm) / STEP;
    const slopeIm = wrapped(next.angle - here.angle) / STEP;
    const urge = Math.sqrt(slopeRe * slopeRe + slopeIm * slopeIm);
    return { logarithm: here.logarithm, phase: here.angle, slopeRe, slopeIm, urge };
  };
}

/** An angle brought between −π and π. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
