import { findRoot, type LogSlopeAt } from './root-search.ts';
import type { ComplexFrequency } from './tuned-system.ts';

/** Damping that the search for a circuit's own mode starts from: that of a Q of sixty. */
const DAMPING = 1 / 120;

/**
 * Shares of the frequency that a search begins off its circuit, one after the other until it
 * settles: between modes that lie close together it may run in circles.
 */
const LEANS: readonly number[] = [0, -0.015, 0.015];

/** Modes further from the station than this share of it are none of its circuits. */
const NEAR = 0.4;

/**
 * The fastest mode near a station in radians and nepers per second, sought from each of its
 * circuits; undefined where none is found.
 *
 * @param frequency hertz @param offsets share of it that each circuit is off by
 * @param near share of it that a mode may be off by
 * @param settled share of a root that its search's last step may still move it by
 */
export function fastestNear(
  slopeAt: LogSlopeAt,
  frequency: number,
  offsets: readonly number[],
  near = NEAR,
  settled?: number,
): ComplexFrequency | undefined {
  const station = 2 * Math.PI * frequency;
  const found: ComplexFrequency[] = [];
  let fastest: ComplexFrequency | undefined;
  for (const offset of offsets) {
    const root = LEANS.reduce<ComplexFrequency | undefined>((known, lean) => {
      const radians = station * (1 + offset + lean);
      const start = { growth: 0 - DAMPING * radians, radians };
      return known ?? findRoot(slopeAt, start, found, settled);
    }, undefined);
    if (!root) continue;
    found.push(root);
    if (Math.abs(root.radians / station - 1) > near) continue;
    if (!fastest || root.growth > fastest.growth) fastest = root;
  }
  return fastest;
}
