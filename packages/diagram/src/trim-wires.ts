import { pointSet } from './point-set.ts';
import { liesOn } from './read-geometry.ts';
import type { Box, Point, Wire } from './scene.ts';
import { wiresByNet } from './wires-by-net.ts';

/** What a wire may end at. */
export interface Ends {
  /** Ends of parts and rail symbols. */
  readonly pins: readonly Point[];
  /** Symbols: studs and springs have no ends of their own. */
  readonly boxes: readonly Box[];
}

/**
 * The same wires without what leads into the air: a piece is cut back to the last place where
 * something meets it, or left out. Takes and gives straight pieces.
 */
export function trimWires(wires: readonly Wire[], { pins, boxes }: Ends): Wire[] {
  const held = pointSet(pins);
  let now = [...wires];
  for (let round = 0; round < 20; round++) {
    let isCut = false;
    const byNet = wiresByNet(now);
    now = now.flatMap((wire) => {
      const [from, to] = [wire.points[0], wire.points.at(-1)];
      if (!from || !to) return [];
      const others = byNet.get(wire.net) ?? [];
      if (isHeld(from, wire, others) && isHeld(to, wire, others)) return wire;
      isCut = true;
      const stops = [from, to, ...meetings(wire, others, from, to)].filter((at) =>
        isHeld(at, wire, others),
      );
      const along = [...stops].sort((a, b) => away(a, from) - away(b, from));
      const [first, last] = [along[0], along.at(-1)];
      if (!first || !last || same(first, last)) return [];
      return { net: wire.net, points: [first, last] };
    });
    if (!isCut) return now;
  }
  return now;

  /** Where ends of other wires of the junction, and pins, lie on a wire. */
  function meetings(wire: Wire, others: readonly Wire[], from: Point, to: Point): Point[] {
    const ends = others.filter((other) => other !== wire).flatMap(({ points }) => points);
    return [...ends, ...pins].filter((at) => liesOn(at, from, to));
  }

  /** @param others the wires of its junction */
  function isHeld(at: Point, wire: Wire, others: readonly Wire[]): boolean {
    return (
      held.has(at) ||
      others.some((other) => {
        if (other === wire) return false;
        const [from, to] = [other.points[0], other.points.at(-1)];
        return from !== undefined && to !== undefined && liesOn(at, from, to);
      }) ||
      boxes.some(
        ({ left, top, right, bottom }) =>
          at.x >= left - 1 && at.x <= right + 1 && at.y >= top - 1 && at.y <= bottom + 1,
      )
    );
  }
}

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;
const away = (a: Point, b: Point): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
