import { blockedRisers, type Riser, risersOf } from './bus-lines.ts';
import { type Cell, cellBox, emptyCell } from './cell.ts';
import { layOut } from './layout.ts';
import type { LayoutEngine } from './layout-engine.ts';
import type { RowPlan } from './row-breaks.ts';
import type { Box, Point } from './scene.ts';

/** Room above and below a row's cells for its lines. */
const spacing = 20;

/** A row with everything in its place, its cells' left edge at 0. */
export interface LaidRow {
  readonly cells: readonly Cell[];
  readonly offsets: readonly Point[];
  readonly wires: readonly { readonly net: number; readonly points: readonly Point[] }[];
  readonly risers: readonly Riser[];
  readonly blocked: readonly Riser[];
  readonly lineAt: ReadonlyMap<number, number>;
  readonly area: Box;
  /** Where the signal comes in at the left and goes out at the right. */
  readonly entry: Point | undefined;
  readonly exit: Point | undefined;
  /** The edges of the row, lines included. */
  readonly top: number;
  readonly bottom: number;
}

/** A cell that stands for the rest of the path, at an edge of the row. */
function gate(net: number | undefined, side: 'west' | 'east'): Cell | undefined {
  if (net === undefined) return undefined;
  const cell = emptyCell(side === 'west' ? ' leaves' : ' enters');
  cell.ports.push({ net, side, from: { x: 0, y: 0 } });
  return cell;
}

/** Lays out one row with its upper edge at `top`; `columns` stand at its right. */
export async function layRow(
  plan: RowPlan,
  follows: readonly (readonly [Cell, Cell])[],
  columns: readonly Cell[],
  lines: { readonly upper: readonly number[]; readonly lower: readonly number[] },
  top: number,
  engine: LayoutEngine,
): Promise<LaidRow> {
  const [first, last] = [gate(plan.enters, 'east'), gate(plan.leaves, 'west')];
  const inPath = [...(first ? [first] : []), ...plan.cells, ...(last ? [last] : [])];
  const laidOut = await layOut(inPath, follows, engine, { first, last });
  const raw = boundsOf(laidOut.boxes);
  const has = (net: number, up: boolean): boolean =>
    [...plan.cells, ...columns].some(({ drops }) =>
      drops.some((drop) => drop.net === net && drop.up === up),
    );
  const upper = lines.upper.filter((net) => has(net, true));
  const lower = lines.lower.filter((net) => has(net, false));
  const by = { x: -raw.left, y: top + 20 + upper.length * spacing - raw.top };
  const move = ({ x, y }: Point): Point => ({ x: x + by.x, y: y + by.y });
  const boxes = laidOut.boxes.map((box) => ({
    left: box.left + by.x,
    right: box.right + by.x,
    top: box.top + by.y,
    bottom: box.bottom + by.y,
  }));
  const area = boundsOf(boxes);
  const lineAt = new Map<number, number>();
  for (const [index, net] of upper.entries()) lineAt.set(net, area.top - 20 - index * spacing);
  for (const [index, net] of lower.entries()) {
    lineAt.set(net, area.bottom + spacing * (index + 1));
  }
  const beside = placeColumns(columns, area.right + 20, (area.top + area.bottom) / 2);
  const cells = [...inPath, ...columns];
  const offsets = [...laidOut.offsets.map(move), ...beside.offsets];
  const wires = laidOut.wires.map(({ net, points }) => ({ net, points: points.map(move) }));
  const risers = risersOf(cells, { offsets }, lineAt);
  const inner = cells.flatMap((cell, index) => {
    const { x, y } = offsets[index] ?? { x: 0, y: 0 };
    return cell.wires.map(({ net, points }) => ({
      net,
      points: points.map((point) => ({ x: point.x + x, y: point.y + y })),
    }));
  });
  return {
    cells,
    offsets,
    wires,
    risers,
    blocked: blockedRisers(risers, inPath, boxes, [...wires, ...inner]),
    lineAt,
    area: { ...area, right: Math.max(area.right, beside.right) },
    entry: first ? offsets[0] : undefined,
    exit: last ? offsets[inPath.length - 1] : undefined,
    top,
    bottom: area.bottom + 30 + lower.length * spacing,
  };
}

function boundsOf(boxes: readonly Box[]): Box {
  if (boxes.length === 0) return { left: 0, top: 0, right: 0, bottom: 0 };
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    top: Math.min(...boxes.map(({ top }) => top)),
    right: Math.max(...boxes.map(({ right }) => right)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  };
}

function placeColumns(
  columns: readonly Cell[],
  left: number,
  middle: number,
): { offsets: Point[]; right: number } {
  let x = left;
  const offsets = columns.map((cell) => {
    const box = cellBox(cell);
    const offset = { x: x - box.left, y: Math.round(middle / 10) * 10 };
    x += box.right - box.left + 10;
    return offset;
  });
  return { offsets, right: x };
}
