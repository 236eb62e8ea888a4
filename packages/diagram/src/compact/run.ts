import type { Point } from '../scene.ts';

/** A run of wire between two cells, from the inner wiring of one to that of the other. */
export interface Run {
  readonly net: number;
  /** Indices of the cells that it leaves and enters. */
  readonly from: number;
  readonly to: number;
  readonly points: readonly Point[];
  /** The least lengths of its first and its last piece. */
  readonly rooms: readonly [number, number];
}

/** A run without the points that it passes straight on. */
export function cornersOf(points: readonly Point[]): Point[] {
  return points
    .filter(({ x, y }, index) => {
      const last = points[index - 1];
      return !last || last.x !== x || last.y !== y;
    })
    .filter((at, index, all) => {
      const [last, next] = [all[index - 1], all[index + 1]];
      if (!last || !next) return true;
      return !((last.x === at.x && at.x === next.x) || (last.y === at.y && at.y === next.y));
    });
}

/** A run seen from its other end. */
export const turned = ({ net, from, to, points, rooms }: Run): Run => ({
  net,
  from: to,
  to: from,
  points: [...points].reverse(),
  rooms: [rooms[1], rooms[0]],
});
