import type { FedModes } from '../small-signal/fed-modes.ts';
import { frequencyOf, type Place, RIGHT_ANGLE, wrapped } from '../small-signal/log-derivative.ts';
import { determinantAt, type TunedSystem } from '../small-signal/tuned-system.ts';

/** Angles of a sound set's determinant along a path round the growing modes below radio. */
export interface AudioAxis {
  readonly low: number;
  readonly high: number;
  readonly places: readonly Place[];
  readonly angles: readonly number[];
  /** Growing modes of the sound set, and hertz of the fastest. */
  readonly count: number;
  readonly frequency: number;
}

/** Steps along the axis and along each of the two arcs that close the path. */
const STEPS = 20;
const ARC_STEPS = 2;

/** Radians by which the ratio of two determinants may turn in one step, or it is counted anew. */
const MOST_TURN = 1;

type Counting = (low: number, high: number) => FedModes;

/** The path of a sound set; undefined where its own modes could not be counted. */
export function audioAxis(
  tuned: TunedSystem,
  low: number,
  high: number,
  counting: Counting,
): AudioAxis | undefined {
  const { count, modes } = counting(low, high);
  if (count === undefined) return undefined;
  const small = Math.log(2 * Math.PI * low);
  const great = Math.log(2 * Math.PI * high);
  const share = (step: number, of: number) => step / of;
  const places: Place[] = [
    ...Array.from({ length: ARC_STEPS }, (_, step) => ({
      size: great,
      angle: RIGHT_ANGLE * share(step, ARC_STEPS),
    })),
    ...Array.from({ length: STEPS + 1 }, (_, step) => ({
      size: great + (small - great) * share(step, STEPS),
      angle: RIGHT_ANGLE,
    })),
    ...Array.from({ length: ARC_STEPS }, (_, step) => ({
      size: small,
      angle: RIGHT_ANGLE * (1 - share(step + 1, ARC_STEPS)),
    })),
  ];
  const angles = anglesOf(tuned, places);
  return angles && { low, high, places, angles, count, frequency: modes[0]?.frequency ?? 0 };
}

function anglesOf(tuned: TunedSystem, places: readonly Place[]): readonly number[] | undefined {
  const angles: number[] = [];
  for (const place of places) {
    const found = determinantAt(tuned, frequencyOf(place));
    if (!found) return undefined;
    angles.push(found.angle);
  }
  return angles;
}

/**
 * Growing modes below radio of a set with a fault: those of the sound one and as many as the ratio
 * of their determinants turns by on the way round. Where it turns too fast to be followed so, or
 * turns at all, they are counted from the beginning. Undefined where that cannot be had.
 */
export function audioWinding(
  tuned: TunedSystem,
  axis: AudioAxis,
  counting: Counting,
): { readonly count: number; readonly frequency: number } | undefined {
  const angles = anglesOf(tuned, axis.places);
  let turned = 0;
  let isSure = angles !== undefined;
  let before = 0;
  for (const [at, angle] of (angles ?? []).entries()) {
    const ratio = angle - (axis.angles[at] as number);
    const step = at === 0 ? 0 : wrapped(ratio - before);
    if (Math.abs(step) > MOST_TURN) isSure = false;
    turned += step;
    before = ratio;
  }
  if (isSure && Math.abs(turned) < RIGHT_ANGLE)
    return { count: axis.count, frequency: axis.frequency };
  const { count, modes } = counting(axis.low, axis.high);
  return count === undefined ? undefined : { count, frequency: modes[0]?.frequency ?? 0 };
}
