import type { Point } from './scene.ts';

/** Points by their very numbers: what is at hand is never a hair beside another. */
export interface PointSet {
  readonly has: (point: Point) => boolean;
  /** Adds a point; false where it was there already. */
  readonly add: (point: Point) => boolean;
}

export function pointSet(points: Iterable<Point> = []): PointSet {
  const columns = new Map<number, Set<number>>();
  const add = ({ x, y }: Point): boolean => {
    const column = columns.get(x);
    if (!column) columns.set(x, new Set([y]));
    else if (column.has(y)) return false;
    else column.add(y);
    return true;
  };
  for (const point of points) add(point);
  return { has: ({ x, y }) => columns.get(x)?.has(y) ?? false, add };
}
