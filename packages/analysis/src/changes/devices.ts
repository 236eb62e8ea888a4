import { crystalCurrent } from '../crystal-law.ts';
import type { Curve } from '../dc-system.ts';
import { type DcTube, ELECTRODES } from '../dc-tubes.ts';
import { filamentCurrent } from '../filament-law.ts';
import {
  BY_FILAMENT,
  BY_GRID,
  BY_PLATE,
  BY_SCREEN,
  noTubeCurrents,
  tubeCurrents,
} from '../tube-currents.ts';
import type { TubeLaw } from '../tube-law.ts';

/** Currents that leave a device's points into it, amperes, and how they go by the volts there. */
export interface DeviceState {
  readonly leaving: Float64Array;
  /** Siemens: row by row what leaves a point, by the volts of each. */
  readonly slopes: Float64Array;
}

/** Something whose current bends with its volts: a tube, a filament, a crystal, a ballast. */
export interface Device {
  /** What tells it from others, the same before and after a change. */
  readonly key: string;
  /** The points it stands between, as the model counts them; -1 for one it has not got. */
  readonly points: readonly number[];
  /** Writes currents and slopes at these volts of its points. */
  reckon(volts: Float64Array, into: DeviceState): void;
}

/** Room for the state of a device with so many points. */
export function deviceState(points: number): DeviceState {
  return { leaving: new Float64Array(points), slopes: new Float64Array(points * points) };
}

/** Points of a tube: grid, plate, screen, reference, F+, F−. */
const REFERENCE = 3;
const PLUS = 4;
const MINUS = 5;
const TUBE_POINTS = 6;

/** Room for what is written down of one tube before the next has its turn. */
const currents = noTubeCurrents();
const { slopes } = currents;

/** A tube by a law, which need not be the one it had. */
export function tubeDevice(
  { part, electrodes, reference, plus, minus, closed }: DcTube,
  law: TubeLaw,
  pointOf: (junction: number) => number,
): Device {
  const toPlus = law.heated ? 0 : law.positiveShare;
  return {
    key: `tube ${part.name}`,
    points: [...electrodes, reference, plus, minus].map((junction) =>
      junction < 0 ? -1 : pointOf(junction),
    ),
    reckon(volts, into) {
      const zero = volts[REFERENCE] as number;
      const above = (at: number): number =>
        (electrodes[at] as number) < 0 ? 0 : (volts[at] as number) - zero;
      const filament = (volts[PLUS] as number) - (volts[MINUS] as number);
      tubeCurrents(law, above(0), above(1), above(2), filament, currents);
      into.leaving.fill(0);
      into.slopes.fill(0);
      for (let electrode = 0; electrode < ELECTRODES.length; electrode++) {
        const name = ELECTRODES[electrode] as (typeof ELECTRODES)[number];
        if (!closed[electrode]) {
          currents[name] = 0;
          slopes.fill(0, 4 * electrode, 4 * electrode + 4);
          continue;
        }
        enter(into, electrode, electrode, 1, currents[name], slopes);
        enter(into, electrode, REFERENCE, toPlus - 1, currents[name], slopes);
        if (toPlus > 0) enter(into, electrode, PLUS, 0 - toPlus, currents[name], slopes);
      }
    },
  };
}

/** Lets a share of an electrode's current leave by one of a tube's points. */
function enter(
  { leaving, slopes: into }: DeviceState,
  electrode: number,
  row: number,
  weight: number,
  amperes: number,
  slopes: Float64Array,
): void {
  leaving[row] = (leaving[row] as number) + weight * amperes;
  const from = 4 * electrode;
  const at = row * TUBE_POINTS;
  const byGrid = weight * (slopes[from + BY_GRID] as number);
  const byPlate = weight * (slopes[from + BY_PLATE] as number);
  const byScreen = weight * (slopes[from + BY_SCREEN] as number);
  const byFilament = weight * (slopes[from + BY_FILAMENT] as number);
  into[at] = (into[at] as number) + byGrid;
  into[at + 1] = (into[at + 1] as number) + byPlate;
  into[at + 2] = (into[at + 2] as number) + byScreen;
  into[at + REFERENCE] = (into[at + REFERENCE] as number) - byGrid - byPlate - byScreen;
  into[at + PLUS] = (into[at + PLUS] as number) + byFilament;
  into[at + MINUS] = (into[at + MINUS] as number) - byFilament;
}

/** A device of two points by its current from the first to the second. */
function twoPoints(
  key: string,
  points: readonly [number, number],
  currentAt: (volts: number) => { readonly amperes: number; readonly slope: number },
): Device {
  return {
    key,
    points,
    reckon(volts, { leaving, slopes }) {
      const { amperes, slope } = currentAt((volts[0] as number) - (volts[1] as number));
      leaving[0] = amperes;
      leaving[1] = 0 - amperes;
      slopes[0] = slopes[3] = slope;
      slopes[1] = slopes[2] = 0 - slope;
    },
  };
}

/** A filament, lamp or crystal by its curve; undefined for what goes by Ohm's law. */
export function curvedDevice(
  key: string,
  points: readonly [number, number],
  curve: Curve,
): Device | undefined {
  switch (curve.kind) {
    case 'ohmic':
      return undefined;
    case 'filament':
      return twoPoints(key, points, (volts) => filamentCurrent(curve.law, volts));
    case 'crystal':
      // Its first end is the mineral; the law counts from the whisker.
      return twoPoints(key, points, (volts) => {
        const { amperes, slope } = crystalCurrent(0 - volts);
        return { amperes: 0 - amperes, slope };
      });
  }
}

/** What a ballast has at its two stops, in ohms. */
const LEAST_BALLAST_OHMS = 1e-6;
const MOST_BALLAST_OHMS = 1e4;

/** A ballast: its rated current at any volts but the least and the most. */
export function ballastDevice(
  key: string,
  points: readonly [number, number],
  ratedAmperes: number,
): Device {
  return twoPoints(key, points, (volts) => {
    const size = Math.abs(volts);
    if (size < ratedAmperes * LEAST_BALLAST_OHMS)
      return { amperes: volts / LEAST_BALLAST_OHMS, slope: 1 / LEAST_BALLAST_OHMS };
    if (size > ratedAmperes * MOST_BALLAST_OHMS)
      return { amperes: volts / MOST_BALLAST_OHMS, slope: 1 / MOST_BALLAST_OHMS };
    return { amperes: Math.sign(volts) * ratedAmperes, slope: 0 };
  });
}
