import type { Canvas } from './canvas.ts';
import { type Cell, wire } from './cell.ts';
import type { LaidOut } from './layout.ts';
import { liesOn } from './read-geometry.ts';
import type { Box, Point } from './scene.ts';

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

/** Risers that would run through a cell, along a wire or over a bend of one. */
export function blockedRisers(
  risers: readonly Riser[],
  cells: readonly Cell[],
  boxes: readonly Box[],
  wires: readonly { readonly net: number; readonly points: readonly Point[] }[],
): Riser[] {
  return risers.filter((riser, own) => {
    const { from, to, net } = riser;
    const [low, high] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
    const throughCell = boxes.some(
      (box, index) =>
        cells[index]?.id !== riser.cell &&
        from.x > box.left - 2 &&
        from.x < box.right + 2 &&
        high > box.top &&
        low < box.bottom,
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
