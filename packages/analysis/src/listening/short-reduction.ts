import type { TunedSet } from '../small-signal/aligned-at.ts';
import {
  type ReducedNetwork,
  reduceAt,
  reducedNetwork,
  remainderLength,
} from '../small-signal/reduced-network.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import type { MatrixAt } from '../small-signal/station-model.ts';
import type { Listening } from './listening.ts';

/** A network whose every entry is off by less than this share tunes and squeals alike. */
const ALIKE = 1e-3;

/** A set drawn together onto its condensers at the shortest station. */
export interface ShortReduction {
  readonly network: ReducedNetwork;
  /** Whether it is the sound set's in all that tunes and squeals. */
  readonly isAlike: boolean;
}

export function shortReduction(
  set: SmallSignal,
  { tuned, shortest, shortMatrix, shortPlans, system }: Listening,
  present: TunedSet,
  fixed: Tuning,
): ShortReduction | undefined {
  if (present.condensers.length === 0) return undefined;
  const network = reducedNetwork(set.system, present.condensers, fixed);
  if (!shortMatrix || present !== tuned) return { network, isAlike: false };
  if (set.system.pattern === system.pattern) network.tuned.plans.push(...shortPlans);
  const matrix = shortMatrixOf(network, shortest);
  return { network, isAlike: matrix !== undefined && areAlike(matrix, shortMatrix) };
}

/** The matrices of what is left of a network, at any radians per second. */
export function matricesOf(network: ReducedNetwork): MatrixAt {
  const remainder = new Float64Array(remainderLength(network));
  const matrix = remainder.subarray(0, 2 * network.size * network.size);
  return (radians, matrices, start) => {
    if (!reduceAt(network, { growth: 0, radians }, remainder)) return false;
    matrices.set(matrix, start);
    return true;
  };
}

export function shortMatrixOf(network: ReducedNetwork, shortest: number): Float64Array | undefined {
  const matrix = new Float64Array(2 * network.size * network.size);
  return matricesOf(network)(2 * Math.PI * shortest, matrix, 0) ? matrix : undefined;
}

/** Whether two reductions are one in all that tunes and squeals. */
function areAlike(one: Float64Array, other: Float64Array): boolean {
  if (one.length !== other.length) return false;
  const size = Math.round(Math.sqrt(one.length / 2));
  const own = Float64Array.from({ length: size }, (_, at) => {
    const diagonal = 2 * (at * size + at);
    return Math.hypot(other[diagonal] as number, other[diagonal + 1] as number);
  });
  return one.every((each, at) => {
    const entry = at >> 1;
    const row = own[Math.floor(entry / size)] as number;
    const scale = Math.sqrt(row * (own[entry % size] as number));
    return Math.abs(each - (other[at] as number)) <= ALIKE * scale;
  });
}
