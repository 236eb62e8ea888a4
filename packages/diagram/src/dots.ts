import { pointSet } from './point-set.ts';
import { liesOn } from './read-geometry.ts';
import type { Dot, Point, Wire } from './scene.ts';
import { wiresByNet } from './wires-by-net.ts';

/** In how many directions wires leave a point: at most one each of left, right, up, down. */
function armsAt(at: Point, wires: readonly Wire[]): number {
  let [left, right, up, down] = [0, 0, 0, 0];
  for (const { points } of wires) {
    for (let index = 1; index < points.length; index++) {
      const [from, to] = [points[index - 1], points[index]];
      if (!from || !to || !liesOn(at, from, to)) continue;
      if (Math.min(from.x, to.x) < at.x - 0.01) left = 1;
      if (Math.max(from.x, to.x) > at.x + 0.01) right = 1;
      if (Math.min(from.y, to.y) < at.y - 0.01) up = 1;
      if (Math.max(from.y, to.y) > at.y + 0.01) down = 1;
    }
  }
  return left + right + up + down;
}

/**
 * Where wires of one junction meet, three or more at a point. `pins` are places where a symbol
 * brings a lead of its own.
 */
export function findDots(wires: readonly Wire[], pins: readonly Point[]): Dot[] {
  const dots: Dot[] = [];
  const seen = pointSet();
  const taken = pointSet(pins);
  for (const [net, own] of wiresByNet(wires)) {
    for (const { points } of own) {
      for (const at of points) {
        if (!seen.add(at)) continue;
        const arms = armsAt(at, own) + (taken.has(at) ? 1 : 0);
        if (arms >= 3) dots.push({ net, at });
      }
    }
  }
  return dots.sort((a, b) => a.at.x - b.at.x || a.at.y - b.at.y);
}
