import { boxAround } from './box.ts';
import { blockedRisers, type Riser, risersOf } from './bus-lines.ts';
import { type Cell, cellBox, emptyCell } from './cell.ts';
import { type LaidOut, layOut } from './layout.ts';
import type { Recalling } from './layout-memory.ts';
import { leastCrossed, type RowLines } from './rail-lines.ts';
import type { RowPlan } from './row-breaks.ts';
import type { Box, Point } from './scene.ts';

/** From one line of a row to the next. */
const spacing = 20;

/** A row with everything in its place, its cells' left edge at 0. */
export interface LaidRow {
  readonly cells: readonly Cell[];
  readonly offsets: readonly Point[];
  readonly wires: readonly { readonly net: number; readonly points: readonly Point[] }[];
  readonly risers: readonly Riser[];
  readonly blocked: readonly Riser[];
  readonly lineAt: ReadonlyMap<number, number>;
  /** What the cells of the signal path cover. */
  readonly area: Box;
  /** Where the signal comes in at the left and goes out at the right. */
  readonly entry: Point | undefined;
  readonly exit: Point | undefined;
  /** Where the way on to the next row runs down. */
  readonly wayDown: number;
  /** The edges of the row, lines and columns included. */
  readonly top: number;
  readonly bottom: number;
  readonly right: number;
}

/** A cell that stands for the rest of the path, at an edge of the row. */
function gate(net: number | undefined, side: 'west' | 'east'): Cell | undefined {
  if (net === undefined) return undefined;
  const cell = emptyCell(side === 'west' ? ' leaves' : ' enters');
  cell.ports.push({ net, side, from: { x: 0, y: 0 } });
  return cell;
}

/** The signal's way through one row as it is laid out, before anything stands around it. */
export interface LaidPath {
  /** The cells of the row. */
  readonly planned: readonly Cell[];
  /** The same, and what stands for the rest of the path at its edges. */
  readonly cells: readonly Cell[];
  readonly laidOut: LaidOut;
  readonly first: Cell | undefined;
  readonly last: Cell | undefined;
  /** What the path covers. */
  readonly raw: Box;
}

/** Lays out the signal's way through one row. */
export async function layPath(
  plan: RowPlan,
  follows: readonly (readonly [Cell, Cell])[],
  engine: Recalling,
): Promise<LaidPath> {
  const [first, last] = [gate(plan.enters, 'east'), gate(plan.leaves, 'west')];
  const cells = [...(first ? [first] : []), ...plan.cells, ...(last ? [last] : [])];
  const laidOut = await layOut(cells, follows, engine, { first, last });
  const raw = boxAround([
    ...cells.map((cell, index) => boxAt(cell, laidOut.offsets[index])),
    ...laidOut.runs.flatMap(({ points }) => points.map(aroundPoint)),
  ]);
  return { planned: plan.cells, cells, laidOut, first, last, raw };
}

/** What stands around the signal's way in a row. */
export interface RowParts {
  /** Parts between rails, at the right of the path. */
  readonly columns: readonly Cell[];
  readonly lines: RowLines;
  readonly isLast: boolean;
}

/** One row with its upper edge at `top`. */
export function layRow(
  { cells: inPath, laidOut, first, last, raw }: LaidPath,
  { columns, lines, isLast }: RowParts,
  ground: number | undefined,
  top: number,
): LaidRow {
  const middle = Math.round((raw.top + raw.bottom) / 20) * 10;
  const cells = [...inPath, ...columns];
  const places = [...laidOut.offsets, ...placesBeside(columns, raw.right + 20, middle)];
  const bounds = boxAround([
    raw,
    ...columns.map((cell, index) => boxAt(cell, places[inPath.length + index])),
  ]);
  const feet = risersOf(cells, { offsets: places }, new Map());
  const ordered = (nets: readonly number[], up: boolean): number[] => {
    const own = feet.filter((riser) => riser.up === up);
    const here = nets.filter((net) => own.some((riser) => riser.net === net));
    // The last row's supplies go on to their terminals.
    return leastCrossed(here, own, () => (up && isLast ? 1e6 : -1e6));
  };
  const upper = ordered(lines.upper, true);
  // Its symbol hangs below the line of the ground.
  const lower = ordered(lines.lower, false).sort(
    (a, b) => Number(a === ground) - Number(b === ground),
  );
  const by = {
    x: -raw.left,
    y:
      top + 10 + Math.max(0, upper.length - 1) * spacing + (upper.length > 0 ? 10 : 0) - bounds.top,
  };
  const move = ({ x, y }: Point): Point => ({ x: x + by.x, y: y + by.y });
  const moved = (box: Box): Box => ({
    left: box.left + by.x,
    right: box.right + by.x,
    top: box.top + by.y,
    bottom: box.bottom + by.y,
  });
  const outer = moved(bounds);
  const lineAt = new Map<number, number>();
  for (const [index, net] of upper.entries()) lineAt.set(net, outer.top - 10 - index * spacing);
  for (const [index, net] of lower.entries()) lineAt.set(net, outer.bottom + 10 + index * spacing);
  const offsets = places.map(move);
  const wires = laidOut.runs.map(({ net, points }) => ({ net, points: points.map(move) }));
  const risers = risersOf(cells, { offsets }, lineAt);
  const inner = cells.flatMap((cell, index) => {
    const { x, y } = offsets[index] ?? { x: 0, y: 0 };
    return cell.wires.map(({ net, points }) => ({
      net,
      points: points.map((point) => ({ x: point.x + x, y: point.y + y })),
    }));
  });
  const lowest = Math.max(outer.bottom, ...lower.map((net) => lineAt.get(net) ?? 0));
  return {
    cells,
    offsets,
    wires,
    risers,
    blocked: blockedRisers(risers, cells, offsets, [...wires, ...inner]),
    lineAt,
    area: moved(raw),
    entry: first ? offsets[0] : undefined,
    exit: last ? offsets[inPath.length - 1] : undefined,
    wayDown: raw.right + by.x + 10,
    top,
    bottom: lowest + (lower.at(-1) === ground && ground !== undefined ? 35 : 10),
    right: outer.right,
  };
}

function boxAt(cell: Cell, { x, y }: Point = { x: 0, y: 0 }): Box {
  const { left, top, right, bottom } = cellBox(cell);
  return { left: left + x, right: right + x, top: top + y, bottom: bottom + y };
}

/** What a point of a wire covers with a little air. */
const aroundPoint = ({ x, y }: Point): Box => ({
  left: x,
  right: x,
  top: Math.floor((y - 3) / 10) * 10,
  bottom: Math.ceil((y + 3) / 10) * 10,
});

function placesBeside(columns: readonly Cell[], left: number, level: number): Point[] {
  let x = left;
  return columns.map((cell) => {
    const box = cellBox(cell);
    const place = { x: x - box.left, y: level };
    x += box.right - box.left;
    return place;
  });
}
