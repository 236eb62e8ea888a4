import type { Strength } from './strength.ts';

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
  const above = skirts(decibels, station, 1);
  const below = skirts(decibels, station, -1);
  const width = (down: number): number | undefined => {
    const [up, off] = [above.get(down), below.get(down)];
    return up === undefined || off === undefined ? undefined : up + off;
  };
  return { curve, width6: width(6), width20: width(20) };
}

/** Decibels down at which the skirts are measured. */
const DOWN: readonly number[] = [6, 20];

/**
 * Hertz to one side at which it first is so many decibels down, up to half the station's, by the
 * decibels.
 */
function skirts(
  decibels: (frequency: number) => number | undefined,
  station: number,
  side: 1 | -1,
): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  let near = 0;
  for (let far = station * 2e-4; far < station / 2; far *= 1.15) {
    const here = decibels(station + side * far);
    if (here === undefined) return found;
    for (const down of DOWN) {
      if (found.has(down) || here > 0 - down) continue;
      const levelAt = (off: number) => (decibels(station + side * off) ?? 0) + down;
      found.set(down, crossing(levelAt, near, far));
    }
    if (found.size === DOWN.length) return found;
    near = far;
  }
  return found;
}

/** Steps in which a crossing is narrowed down, and decibels within which it is met. */
const STEPS = 40;
const MET = 1e-9;

/** Where a level falls through nothing, by false position with the standing end's weight halved. */
function crossing(levelAt: (off: number) => number, above: number, below: number): number {
  let [near, far] = [above, below];
  let [high, low] = [levelAt(near), levelAt(far)];
  let last = 0;
  for (let step = 0; step < STEPS && high > 0; step++) {
    const middle = near + ((far - near) * high) / (high - low);
    const level = levelAt(middle);
    if (Math.abs(level) < MET) return middle;
    if (level > 0) {
      [near, high] = [middle, level];
      if (last > 0) low /= 2;
    } else {
      [far, low] = [middle, level];
      if (last < 0) high /= 2;
    }
    last = level;
  }
  return far;
}
