import type { DetectorPort } from './detector-port.ts';
import { eliminateAt, solveDriven, type Tuning, tunedSystem } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';

/** A strength in decibels beside the station, against that at the station. */
export interface SelectivityPoint {
  /** Hertz off the station. */
  readonly offset: number;
  readonly decibels: number;
}

/** What comes through beside the station that a set is tuned to. */
export interface Selectivity {
  readonly curve: readonly SelectivityPoint[];
  /** Hertz between the two places 6 and 20 decibels down; undefined where it falls no so far. */
  readonly width6: number | undefined;
  readonly width20: number | undefined;
}

/** Hertz to either side at which the curve is given: the channels lie 10 kc apart. */
const BESIDE: readonly number[] = [-50, -40, -30, -20, -15, -10, -5, 0, 5, 10, 15, 20, 30, 40, 50];

/** Volts at the detector for one volt in the aerial, as a function of hertz. */
export type Strength = (frequency: number) => number | undefined;

/** How strongly the detector hears a frequency with the condensers as they stand. */
export function strengthAt(set: SmallSignal, detector: DetectorPort, tuning: Tuning): Strength {
  const tuned = tunedSystem(set.system, tuning);
  const electromotive = new Map([[set.entrance?.series ?? '', [1, 0] as const]]);
  return (frequency) => {
    if (!(frequency > 0)) return undefined;
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) return undefined;
    const { re, im } = solveDriven(set.system, room, { electromotive });
    const { plus, minus } = detector;
    return Math.hypot(
      (re[plus] as number) - (re[minus] as number),
      (im[plus] as number) - (im[minus] as number),
    );
  };
}

/** Selectivity about a station in hertz. */
export function selectivity(strength: Strength, station: number): Selectivity {
  const middle = strength(station);
  if (middle === undefined || !(middle > 0)) {
    return { curve: [], width6: undefined, width20: undefined };
  }
  const decibels = (frequency: number): number | undefined => {
    const volts = frequency > 0 ? strength(frequency) : undefined;
    return volts === undefined || !(volts > 0) ? undefined : 20 * Math.log10(volts / middle);
  };
  const curve = BESIDE.flatMap((kilocycles) => {
    const offset = 1e3 * kilocycles;
    const found = decibels(station + offset);
    return found === undefined ? [] : [{ offset, decibels: found }];
  });
  const width = (down: number): number | undefined => {
    const above = skirt(decibels, station, down, 1);
    const below = skirt(decibels, station, down, -1);
    return above === undefined || below === undefined ? undefined : above + below;
  };
  return { curve, width6: width(6), width20: width(20) };
}

/** Hertz to one side at which it first is so many decibels down, up to half the station's. */
function skirt(
  decibels: (frequency: number) => number | undefined,
  station: number,
  down: number,
  side: 1 | -1,
): number | undefined {
  let near = 0;
  for (let far = station * 2e-4; far < station / 2; far *= 1.15) {
    const here = decibels(station + side * far);
    if (here === undefined) return undefined;
    if (here > 0 - down) {
      near = far;
      continue;
    }
    for (let step = 0; step < 30; step++) {
      const middle = (near + far) / 2;
      if ((decibels(station + side * middle) ?? 0) > 0 - down) near = middle;
      else far = middle;
    }
    return far;
  }
  return undefined;
}
