import { type FittedPath, fitAt, fittedPath, type Path } from './fitted-path.ts';
import { type CourseAt, frequencyOf, RIGHT_ANGLE } from './log-derivative.ts';
import { capacitiesOf, type ReducedNetwork } from './reduced-network.ts';
import type { SignalNetwork } from './signal-network.ts';
import type { Tuning } from './signal-system.ts';
import { slopingDeterminant, smallMatrix } from './small-matrix.ts';
import { lossBends } from './winding-ohms.ts';

/** A reduced network along the axis of steady frequencies and along arcs that begin on it. */
export interface FittedPlane {
  readonly network: ReducedNetwork;
  /** By the logarithm of radians per second. */
  readonly axis: FittedPath;
  /** By the angle, for every logarithm of radians per second that was asked for. */
  readonly arcs: Map<number, FittedPath>;
  /** Hertz that the axis goes from and to. */
  readonly low: number;
  readonly high: number;
  /** Whether it was of no use: all but noise. */
  isGivenUp: boolean;
}

/** Arcs are begun in two stretches. */
const ARC_BOUNDS: readonly number[] = [0, RIGHT_ANGLE / 2, RIGHT_ANGLE];

/** Prepares a network between two frequencies in hertz; nothing is fitted before it is wanted. */
export function fittedPlane(network: ReducedNetwork, low: number, high: number): FittedPlane {
  const axis = fittedPath(network, axisOf(network.tuned.system.network, low, high));
  return { network, axis, arcs: new Map(), low, high, isGivenUp: false };
}

/** The axis between two frequencies in hertz, in stretches on which all losses go smoothly. */
function axisOf(network: SignalNetwork, low: number, high: number): Path {
  const corners = [low, ...lossBends(network, low, high), high];
  return {
    placeAt: (size) => ({ growth: 0, radians: Math.exp(size) }),
    bounds: corners.map((frequency) => Math.log(2 * Math.PI * frequency)),
  };
}

function arcAt({ network, arcs }: FittedPlane, size: number): FittedPath {
  const known = arcs.get(size);
  if (known) return known;
  const path = fittedPath(network, {
    placeAt: (angle) => frequencyOf({ size, angle }),
    bounds: ARC_BOUNDS,
  });
  arcs.set(size, path);
  return path;
}

/** The course of a network's determinant with its turned condensers in one way. */
export function fittedCourse(plane: FittedPlane, tuning: Tuning): CourseAt {
  const { network } = plane;
  const { size } = network;
  const added = capacitiesOf(network, tuning);
  const matrix = smallMatrix(size);
  const rest = 2 * size * size;
  return (place) => {
    const isOnAxis = place.angle === RIGHT_ANGLE;
    const path = isOnAxis ? plane.axis : arcAt(plane, place.size);
    if (!fitAt(path, isOnAxis ? place.size : place.angle)) return undefined;
    const { values, slopes } = path;
    const { growth, radians } = frequencyOf(place);
    // Along the axis the frequency goes as itself, along an arc a right angle ahead of that.
    const goesRe = isOnAxis ? growth : 0 - radians;
    const goesIm = isOnAxis ? radians : growth;
    for (let entry = 0, at = 0; entry < added.length; entry++, at += 2) {
      const each = added[entry] as number;
      matrix.values[at] = (values[at] as number) + growth * each;
      matrix.values[at + 1] = (values[at + 1] as number) + radians * each;
      matrix.slopes[at] = (slopes[at] as number) + goesRe * each;
      matrix.slopes[at + 1] = (slopes[at + 1] as number) + goesIm * each;
    }
    const left = slopingDeterminant(matrix);
    if (!left) return undefined;
    const alongRe = (slopes[rest] as number) + left.slopeRe;
    const alongIm = (slopes[rest + 1] as number) + left.slopeIm;
    return {
      logarithm: (values[rest] as number) + left.logarithm,
      phase: (values[rest + 1] as number) + left.angle,
      slopeRe: isOnAxis ? alongRe : alongIm,
      slopeIm: isOnAxis ? alongIm : 0 - alongRe,
      urge: Math.sqrt(left.slopeRe * left.slopeRe + left.slopeIm * left.slopeIm),
    };
  };
}
