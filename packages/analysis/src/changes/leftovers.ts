import { type Device, deviceState } from './devices.ts';
import type { PlacedDevice, State } from './state.ts';

/** Stands in the place of a device that is out. */
export const noDevice = 'out';

/** Devices that stand in the place of others, by the other's key. */
export type Replacements = ReadonlyMap<string, Device | typeof noDevice>;

/** What the devices draw beyond the straight lines that they are counted with at a state. */
export interface Leftovers {
  /** Amperes out of every port. */
  readonly leaving: Float64Array;
  /** Siemens beyond those of the state, port by port. */
  readonly slopes: Float64Array;
  /** Works them out at these moves of the ports' volts. */
  reckon(moves: Float64Array): void;
  /** The same without the slopes, which are left as they were. */
  reckonLeaving(moves: Float64Array): void;
  /** The devices as they stand at the last moves, which are still as they were given. */
  placed(): readonly PlacedDevice[];
}

/**
 * Volts by which a device has not moved as far as its bend goes: what is left out goes as the
 * square, and is below a microvolt at any grid.
 */
const UNMOVED = 3e-4;

interface Working {
  readonly each: PlacedDevice;
  readonly by: Device | typeof noDevice;
  readonly isReplaced: boolean;
}

/**
 * Makes ready to work them out.
 *
 * @param coarse whether devices that have hardly moved are counted as straight
 */
export function leftoversOf(state: State, replacements: Replacements, coarse: boolean): Leftovers {
  const m = state.ports.length;
  const leaving = new Float64Array(m);
  const slopes = new Float64Array(m * m);
  let last: Float64Array = new Float64Array(m);
  let mostPoints = 0;
  const working = state.devices.map((each): Working => {
    const replacement = replacements.get(each.device.key);
    mostPoints = Math.max(mostPoints, each.device.points.length);
    return { each, by: replacement ?? each.device, isReplaced: replacement !== undefined };
  });
  // One device is worked out after another, all in the same room.
  const trial = new Float64Array(mostPoints);
  const now = deviceState(mostPoints);
  /** Lays a device's volts out at these moves, and gives back the greatest of its moves. */
  const lay = ({ device, places }: PlacedDevice, moves: Float64Array): number => {
    let most = 0;
    for (let at = 0; at < places.length; at++) {
      const place = places[at] as number;
      const move = place < 0 ? 0 : (moves[place] as number);
      const before = place < 0 ? 0 : (state.volts[device.points[at] as number] as number);
      trial[at] = before + move;
      if (Math.abs(move) > most) most = Math.abs(move);
    }
    return most;
  };
  const reckonOne = (one: Working, moves: Float64Array, isBent: boolean): void => {
    const { each, by, isReplaced } = one;
    const { places, rest } = each;
    const count = places.length;
    const most = lay(each, moves);
    if (!isReplaced && (most === 0 || (coarse && most < UNMOVED))) return;
    if (by === noDevice) {
      now.leaving.fill(0);
      now.slopes.fill(0);
    } else by.reckon(trial, now);
    for (let row = 0; row < count; row++) {
      const place = places[row] as number;
      if (place < 0) continue;
      let straight = rest.leaving[row] as number;
      for (let column = 0; column < count; column++) {
        const other = places[column] as number;
        if (other < 0) continue;
        const at = row * count + column;
        const before = rest.slopes[at] as number;
        straight += before * (moves[other] as number);
        if (!isBent) continue;
        const to = place * m + other;
        slopes[to] = (slopes[to] as number) + (now.slopes[at] as number) - before;
      }
      leaving[place] = (leaving[place] as number) + (now.leaving[row] as number) - straight;
    }
  };
  return {
    leaving,
    slopes,
    reckon(moves) {
      last = moves;
      leaving.fill(0);
      slopes.fill(0);
      for (const one of working) reckonOne(one, moves, true);
    },
    reckonLeaving(moves) {
      last = moves;
      leaving.fill(0);
      for (const one of working) reckonOne(one, moves, false);
    },
    placed: () =>
      working.flatMap(({ each, by }) => {
        if (by === noDevice) return [];
        // One that was counted as straight, or has not moved, is worked out at last.
        lay(each, last);
        const rest = deviceState(each.places.length);
        by.reckon(trial, rest);
        return { device: by, places: each.places, rest };
      }),
  };
}
