import type { FedModes } from '../small-signal/fed-modes.ts';
import { frequencyOf, type Place, RIGHT_ANGLE, wrapped } from '../small-signal/log-derivative.ts';
import { determinantAt, type TunedSystem } from '../small-signal/tuned-system.ts';

/** Angles of a sound set's determinant along a path round the growing modes below radio. */
export interface AudioAxis {
  readonly low: number;
  readonly high: number;
  readonly places: readonly Place[];
  readonly angles: readonly number[];
  /** The angle at a place between, found when it is first wanted. */
  angleAt(place: Place): number | undefined;
  /** Growing modes of the sound set, and hertz of the fastest. */
  readonly count: number;
  readonly frequency: number;
}

/** Steps along the axis and along each of the two arcs that close the path. */
const STEPS = 20;
const ARC_STEPS = 2;

/** Radians by which the ratio of two determinants may turn in one step, or the step is halved. */
const MOST_TURN = 1;
const MOST_HALVINGS = 5;

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
  const between = new Map<string, number | undefined>();
  const angleAt = (place: Place): number | undefined => {
    const key = `${place.size} ${place.angle}`;
    if (!between.has(key)) between.set(key, determinantAt(tuned, frequencyOf(place))?.angle);
    return between.get(key);
  };
  return (
    angles && { low, high, places, angles, angleAt, count, frequency: modes[0]?.frequency ?? 0 }
  );
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

/** How a faulty set stands to the sound one at a place of the path. */
interface Against {
  readonly place: Place;
  /** Angle of its determinant less that of the sound set's. */
  readonly angle: number;
}

/** Radians that the ratio turns by on a piece of the path; undefined where it cannot be followed. */
function turning(
  tuned: TunedSystem,
  axis: AudioAxis,
  from: Against,
  to: Against,
  halvings = MOST_HALVINGS,
): number | undefined {
  const step = wrapped(to.angle - from.angle);
  if (Math.abs(step) <= MOST_TURN) return step;
  if (halvings === 0) return undefined;
  const place = {
    size: (from.place.size + to.place.size) / 2,
    angle: (from.place.angle + to.place.angle) / 2,
  };
  const here = determinantAt(tuned, frequencyOf(place));
  const sound = axis.angleAt(place);
  if (!here || sound === undefined) return undefined;
  const middle = { place, angle: here.angle - sound };
  const before = turning(tuned, axis, from, middle, halvings - 1);
  const after = before === undefined ? undefined : turning(tuned, axis, middle, to, halvings - 1);
  return after === undefined ? undefined : (before as number) + after;
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
  const path = angles?.map((angle, at): Against => {
    const place = axis.places[at] as Place;
    return { place, angle: angle - (axis.angles[at] as number) };
  });
  const turned = path?.reduce<number | undefined>((sum, to, at) => {
    const from = path[at - 1];
    const step = sum !== undefined && from ? turning(tuned, axis, from, to) : 0;
    return sum === undefined || step === undefined ? undefined : sum + step;
  }, 0);
  if (turned !== undefined && Math.abs(turned) < RIGHT_ANGLE)
    return { count: axis.count, frequency: axis.frequency };
  const { count, modes } = counting(axis.low, axis.high);
  return count === undefined ? undefined : { count, frequency: modes[0]?.frequency ?? 0 };
}
