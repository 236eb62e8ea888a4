import type { Canvas } from './canvas.ts';
import { type Cell, wire } from './cell.ts';
import type { LaidOut } from './layout.ts';
import { liesOn } from './read-geometry.ts';
import type { Point } from './scene.ts';

/** A rail's way out of a cell to its bus line. */
export interface Riser {
  readonly cell: string;
  readonly net: number;
  readonly up: boolean;
  readonly from: Point;
  readonly to: Point;
}

/** The key under which a cell's rail is kept off its bus line. */
export const riserKey = (cell: string, net: number, up: boolean): string =>
  `${cell} ${net} ${up ? 'up' : 'down'}`;

/** Every rail of the placed cells, straight up or down to the line it belongs to. */
export function risersOf(
  cells: readonly Cell[],
  laidOut: Pick<LaidOut, 'offsets'>,
  lineAt: ReadonlyMap<number, number>,
): Riser[] {
  return cells.flatMap((cell, index) => {
    const offset = laidOut.offsets[index] ?? { x: 0, y: 0 };
    return cell.drops.map(({ net, at, up }) => {
      const x = at.x + offset.x;
      return {
        cell: cell.id,
        net,
        up,
        from: { x, y: at.y + offset.y },
        to: { x, y: lineAt.get(net) ?? at.y + offset.y },
      };
    });
  });
}

/**
 * Risers that would run through a cell, along a wire or over a bend of one, and such as cross the
 * signal's way: a supply at all, a low rail more than once.
 */
export function blockedRisers(
  risers: readonly Riser[],
  cells: readonly Cell[],
  offsets: readonly Point[],
  wires: readonly { readonly net: number; readonly points: readonly Point[] }[],
): Riser[] {
  const things = cells.flatMap((cell, index) => {
    const { x, y } = offsets[index] ?? { x: 0, y: 0 };
    return [...cell.symbols, ...cell.labels, ...cell.marks].map(({ box }) => ({
      cell: cell.id,
      left: box.left + x,
      right: box.right + x,
      top: box.top + y,
      bottom: box.bottom + y,
    }));
  });
  return risers.filter((riser, own) => {
    const { from, to, net } = riser;
    const [low, high] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
    const throughCell = things.some(
      ({ cell, left, right, top, bottom }) =>
        cell !== riser.cell &&
        from.x > left - 4 &&
        from.x < right + 4 &&
        high > top - 4 &&
        low < bottom + 4,
    );
    if (throughCell) return true;
    const onWire = wires.some(
      (each) =>
        each.net !== net &&
        (each.points.some((point) => liesOn(point, from, to)) ||
          each.points.some((point, index) => {
            const next = each.points[index + 1];
            if (!next || Math.abs(next.x - point.x) > 0.01) return false;
            if (Math.abs(point.x - from.x) > 7) return false;
            const [a, b] = [Math.min(point.y, next.y), Math.max(point.y, next.y)];
            return b > low && a < high;
          })),
    );
    if (onWire) return true;
    const crossed = wires.filter((each) => each.net !== net && crosses(each.points, riser)).length;
    if (crossed > (riser.up ? 0 : 1)) return true;
    return risers.some(
      (each, index) =>
        index < own &&
        each.net !== net &&
        Math.abs(each.from.x - from.x) < 8 &&
        Math.max(each.from.y, each.to.y) > low &&
        Math.min(each.from.y, each.to.y) < high,
    );
  });
}

/** Whether a level piece of a wire runs across a riser. */
function crosses(points: readonly Point[], { from, to }: Riser): boolean {
  const [low, high] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
  return points.some((point, index) => {
    const next = points[index + 1];
    if (!next || next.y !== point.y || point.y <= low || point.y >= high) return false;
    return Math.min(point.x, next.x) < from.x && Math.max(point.x, next.x) > from.x;
  });
}

/** Draws the risers and the line they meet, from the first of them to the right end. */
export function drawBusLine(
  canvas: Canvas,
  net: number,
  y: number,
  risers: readonly Riser[],
  left: number,
  right: number,
): void {
  for (const { from, to } of risers) wire(canvas, net, from.x, from.y, to.x, to.y);
  wire(canvas, net, left, y, right, y);
}
