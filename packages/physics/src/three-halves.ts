import type { Writable } from './domain.ts';

/** The three-halves-power law averaged along a filament, and its slopes. */
export interface ThreeHalves {
  /** Mean of (u − s w)^1.5 for s from 0 to 1, negative stretches counting nothing. V^1.5. */
  readonly value: number;
  /** Its slope by u. */
  readonly slope: number;
  /** Its second slope by u. */
  readonly curvature: number;
  /** Its slope by w. */
  readonly dropSlope: number;
}

/** A drop below this share of the voltage acts as its middle. */
const SMALL_DROP = 1e-4;

/**
 * Space-charge law along a filament whose one end is w volts above the other: each bit sees the
 * effective voltage u less its own share of w, and draws its 1.5th power or nothing.
 *
 * @param u effective voltage at the end F−, volts @param w drop from F− to F+ as the law feels it
 *
 * Any finite values. Exact but for a small drop, 1e-9.
 * Source: C. D. Child (1911) and I. Langmuir (1913) for the law; the average along the filament
 * as in the period texts on the voltage drop of filaments.
 */
export function threeHalvesAlongFilament(u: number, w: number): ThreeHalves {
  const into = { value: 0, slope: 0, curvature: 0, dropSlope: 0 };
  threeHalvesInto(u, w, into);
  return into;
}

/** The same written into a place that is used again and again. */
export function threeHalvesInto(u: number, w: number, into: Writable<ThreeHalves>): void {
  if (Math.abs(w) <= SMALL_DROP * Math.abs(u) || w === 0) {
    const middle = Math.max(0, u - w / 2);
    const root = Math.sqrt(middle);
    into.value = middle * root;
    into.slope = 1.5 * root;
    into.curvature = middle > 0 ? 0.75 / root : 0;
    into.dropSlope = -into.slope / 2;
    return;
  }
  const high = Math.max(0, u);
  const low = Math.max(0, u - w);
  const highRoot = Math.sqrt(high);
  const lowRoot = Math.sqrt(low);
  const value = (high * high * highRoot - low * low * lowRoot) / (2.5 * w);
  into.value = value;
  into.slope = (high * highRoot - low * lowRoot) / w;
  into.curvature = (1.5 * (highRoot - lowRoot)) / w;
  into.dropSlope = (low * lowRoot - value) / w;
}
