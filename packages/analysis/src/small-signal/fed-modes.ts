import { type FittedPlane, fittedCourse } from './fitted-plane.ts';
import { type GrowingModes, growingModes } from './growing-modes.ts';
import { tubesThatFeed } from './mode-shape.ts';
import { type Gait, phaseWinding, type Winding } from './phase-winding.ts';
import { covers } from './reduced-network.ts';
import { isOfRole } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { tunedSystem } from './tuned-system.ts';

/** Growing modes with the tubes that feed them; those of an oscillator's stage are meant to be. */
export interface FedModes extends GrowingModes {
  /** Growing roots that are not meant; undefined where their number is not known. */
  readonly unmeant: number | undefined;
}

/**
 * The growing modes of a set between two frequencies in hertz, with the tubes that feed them.
 *
 * @param plane the set drawn together onto what is tuned: the same answer sooner
 */
export function fedModes(
  set: SmallSignal,
  tuning: Tuning,
  low: number,
  high: number,
  plane?: FittedPlane,
): FedModes {
  const winding = plane && windingIn(plane, tuning, low, high);
  if (winding?.growing === 0) return { count: 0, modes: [], low, high, unmeant: 0 };
  const found = growingModes(tunedSystem(set.system, tuning), low, high, winding);
  let unmeant = found.count;
  const modes = found.modes.map((mode) => {
    const tubes = tubesThatFeed(set, tuning, mode);
    const isMeant =
      tubes.length > 0 &&
      tubes.every((name) => {
        const part = set.circuit.partNamed.get(name);
        return part !== undefined && isOfRole(set, part, 'oscillator');
      });
    if (isMeant && unmeant !== undefined) unmeant -= mode.frequency > 0 ? 2 : 1;
    return { ...mode, tubes };
  });
  return { ...found, modes, unmeant };
}

/** A count of turns must be a whole number to within this share, or the plain way is gone. */
const SURE = 0.05;

/** What a fitted network is asked for may lie further apart, and it never needs many steps. */
const GAIT: Gait = { longest: 0.2, mostSteps: 2000 };

/**
 * The winding by the fitted network. Where nothing grows between its own ends nothing grows
 * between others inside them: that is asked first, since it is the same path for all stations.
 */
function windingIn(
  plane: FittedPlane,
  tuning: Tuning,
  low: number,
  high: number,
): Winding | undefined {
  if (plane.isGivenUp || low < plane.low || high > plane.high) return undefined;
  if (!covers(plane.network, tuning)) return undefined;
  const course = fittedCourse(plane, tuning);
  const sureBetween = (from: number, to: number): Winding | undefined => {
    const winding = phaseWinding(course, from, to, GAIT);
    plane.isGivenUp = !winding || Math.abs(winding.turns - winding.growing) > SURE;
    return plane.isGivenUp ? undefined : winding;
  };
  const whole = sureBetween(plane.low, plane.high);
  if (!whole || whole.growing === 0) return whole;
  if (low === plane.low && high === plane.high) return whole;
  return sureBetween(low, high);
}
