import { liesOn } from './read-geometry.ts';
import type { Dot, Point, Wire } from './scene.ts';

/** Directions in which wires leave a point: at most one each of left, right, up, down. */
function armsAt(at: Point, wires: readonly Wire[]): Set<string> {
  const arms = new Set<string>();
  for (const { points } of wires) {
    for (let index = 1; index < points.length; index++) {
      const [from, to] = [points[index - 1], points[index]];
      if (!from || !to || !liesOn(at, from, to)) continue;
      for (const end of [from, to]) {
        if (end.x < at.x - 0.01) arms.add('left');
        else if (end.x > at.x + 0.01) arms.add('right');
        if (end.y < at.y - 0.01) arms.add('up');
        else if (end.y > at.y + 0.01) arms.add('down');
      }
    }
  }
  return arms;
}

/**
 * Where wires of one junction meet, three or more at a point. `pins` are places where a symbol
 * brings a lead of its own.
 */
export function findDots(wires: readonly Wire[], pins: readonly Point[]): Dot[] {
  const dots: Dot[] = [];
  const seen = new Set<string>();
  const byNet = new Map<string, Wire[]>();
  for (const wire of wires) {
    const list = byNet.get(wire.net);
    if (list) list.push(wire);
    else byNet.set(wire.net, [wire]);
  }
  const taken = new Set(pins.map(({ x, y }) => `${x},${y}`));
  for (const [net, own] of byNet) {
    for (const { points } of own) {
      for (const at of points) {
        const key = `${at.x},${at.y}`;
        if (seen.has(key)) continue;
        seen.add(key);
        const arms = armsAt(at, own).size + (taken.has(key) ? 1 : 0);
        if (arms >= 3) dots.push({ net, at });
      }
    }
  }
  return dots.sort((a, b) => a.at.x - b.at.x || a.at.y - b.at.y);
}
