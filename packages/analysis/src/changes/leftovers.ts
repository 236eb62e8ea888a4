import { type Device, type DeviceState, deviceState } from './devices.ts';
import { type PlacedDevice, type State, voltsOf } from './state.ts';

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
  /** The devices as they stood at the last moves. */
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
  readonly volts: Float64Array;
  readonly trial: Float64Array;
  readonly now: DeviceState;
  isAsBefore: boolean;
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
  const working = state.devices.map((each): Working => {
    const replacement = replacements.get(each.device.key);
    const points = each.device.points.length;
    return {
      each,
      by: replacement ?? each.device,
      isReplaced: replacement !== undefined,
      volts: voltsOf(each.device, state.volts),
      trial: new Float64Array(points),
      now: deviceState(points),
      isAsBefore: false,
    };
  });
  const reckonOne = (one: Working, moves: Float64Array): void => {
    const { each, by, volts, trial, now } = one;
    const { places, rest } = each;
    const count = places.length;
    let most = 0;
    for (let at = 0; at < count; at++) {
      const place = places[at] as number;
      const move = place < 0 ? 0 : (moves[place] as number);
      trial[at] = (volts[at] as number) + move;
      if (Math.abs(move) > most) most = Math.abs(move);
    }
    one.isAsBefore = !one.isReplaced && (most === 0 || (coarse && most < UNMOVED));
    if (one.isAsBefore) return;
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
      leaving.fill(0);
      slopes.fill(0);
      for (const one of working) reckonOne(one, moves);
    },
    placed: () =>
      working.flatMap(({ each, by, now, trial, isReplaced }) => {
        if (by === noDevice) return [];
        // One that was counted as straight is worked out at last.
        by.reckon(trial, now);
        return isReplaced || by !== each.device
          ? { device: by, places: each.places, rest: now }
          : { ...each, rest: now };
      }),
  };
}
