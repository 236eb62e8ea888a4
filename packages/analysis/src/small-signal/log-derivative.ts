import { type ComplexFrequency, determinantAt, type TunedSystem } from './signal-system.ts';

/** A place in the plane of complex frequencies by its logarithm: size and angle. */
export interface Place {
  /** Natural logarithm of radians per second. */
  readonly size: number;
  /** 0 on the axis of growth alone, a right angle on that of steady turning. */
  readonly angle: number;
}

/** What the determinant does at a place. */
export interface Course {
  readonly logarithm: number;
  readonly phase: number;
  /** How its logarithm goes with that of the complex frequency. */
  readonly slopeRe: number;
  readonly slopeIm: number;
}

/** A step that is small against any root's distance that can matter, and large against rounding. */
const STEP = 1e-6;

function frequencyOf({ size, angle }: Place): ComplexFrequency {
  const radius = Math.exp(size);
  // Exactly on the axis, where rounding must not let a steady mode grow.
  const growth = angle === Math.PI / 2 ? 0 : radius * Math.cos(angle);
  return { growth, radians: radius * Math.sin(angle) };
}

/** The course of the determinant; undefined at a root. */
export function courseAt(tuned: TunedSystem, place: Place): Course | undefined {
  const here = determinantAt(tuned, frequencyOf(place));
  const next = determinantAt(tuned, frequencyOf({ ...place, size: place.size + STEP }));
  if (!here || !next) return undefined;
  return {
    logarithm: here.logarithm,
    phase: here.angle,
    slopeRe: (next.logarithm - here.logarithm) / STEP,
    slopeIm: wrapped(next.angle - here.angle) / STEP,
  };
}

/** An angle brought between −π and π. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
