import type { Part } from '@setwright/circuit';
import { type Canvas, drawStack, stackStep, stamp, type Terminal } from '../canvas.ts';
import { addMark, type Cell, cellBox, type Paper, wire } from '../cell.ts';
import { flatPart } from '../cells/upright.ts';
import type { Ladder } from './ladder.ts';

/** Where the strip is to go. */
export interface StripPlace {
  readonly top: number;
  /** How far to the right its cells may be spread. */
  readonly right: number;
  /** Where the tubes of a set in one row stand; their filaments then stand below them. */
  readonly tubeAt: ReadonlyMap<string, number>;
}

/** The strip with its cells in place, its lines not drawn yet. */
export interface PlacedStrip {
  readonly upperY: number;
  readonly lowerY: number;
  /** The right end of its cells, and of a switch in a line. */
  readonly right: number;
  /** Where each line is met. */
  readonly met: { readonly upper: readonly number[]; readonly lower: readonly number[] };
}

/** Least room between two cells of the strip, and most where there is plenty. */
const [closest, widest] = [10, 90];
const tailLength = 100;

/** The width of the strip's cells at their closest, a switch at the right end included. */
export function stripWidth(ladder: Ladder, cells: readonly Cell[]): number {
  return cells.length === 0 ? 0 : upperWidth(cells) + tailOf(ladder);
}

/**
 * The width of the upper piece of a folded strip at its closest, up to where the terminals may
 * stand: their outline reaches down past it.
 */
export function upperWidth(cells: readonly Cell[]): number {
  const widths = cells.map((cell) => cellBox(cell).right - cellBox(cell).left + closest);
  return 40 + widths.reduce((sum, width) => sum + width, 0);
}

/** A strip of fewer cells is not folded. */
const fewest = 8;

/**
 * The strip in one piece, or in two one below the other where it is much wider than the rows above
 * it: what stands in the second has the terminals at its right.
 *
 * @param rows width of the widest row, in drawing units
 * @param unfolded its width in one piece
 */
export function foldStrip(
  ladder: Ladder,
  cells: readonly Cell[],
  rows: number,
  unfolded: number = stripWidth(ladder, cells),
): readonly (readonly Cell[])[] {
  if (cells.length < fewest || unfolded < rows * 1.15) return [cells];
  const widths = cells.map((cell) => cellBox(cell).right - cellBox(cell).left + closest);
  const sum = (part: readonly number[]): number => part.reduce((all, width) => all + width, 0);
  const longest = (at: number): number =>
    Math.max(sum(widths.slice(0, at)), sum(widths.slice(at)) + tailOf(ladder));
  let best = 1;
  for (let at = 2; at < cells.length; at++) if (longest(at) < longest(best)) best = at;
  return [cells.slice(0, best), cells.slice(best)];
}

/** The height of the strip, its two lines and the terminals below them included. */
export function stripHeight(cells: readonly Cell[]): number {
  const boxes = cells.map(cellBox);
  if (boxes.length === 0) return 0;
  return (
    Math.max(40, ...boxes.map(({ bottom }) => bottom)) -
    Math.min(-40, ...boxes.map(({ top }) => top)) +
    50
  );
}

const tailOf = ({ upperTail, lowerTail }: Ladder): number =>
  upperTail || lowerTail ? tailLength : 20;

/** Sets down the cells of the filament circuit side by side, and what else stands between them. */
export function placeStrip(
  canvas: Canvas,
  ladder: Ladder,
  cells: readonly Cell[],
  { top, right, tubeAt }: StripPlace,
): PlacedStrip {
  const boxes = cells.map(cellBox);
  const level = top - Math.min(-40, ...boxes.map((box) => box.top));
  const lowerY = level + Math.max(40, ...boxes.map((box) => box.bottom));
  const places = placesOf(ladder, cells, { top, right, tubeAt });
  const met = { upper: [] as number[], lower: [] as number[] };
  for (const [index, cell] of cells.entries()) {
    const x = places[index] ?? 0;
    stamp(canvas, cell, { x, y: level });
    for (const { net, at, up } of cell.drops) {
      const foot = { x: at.x + x, y: at.y + level };
      wire(canvas, net, foot.x, foot.y, foot.x, up ? top : lowerY);
      (up ? met.upper : met.lower).push(foot.x);
    }
  }
  const ends = boxes.map((box, index) => box.right + (places[index] ?? 0));
  return { upperY: top, lowerY, right: Math.max(0, ...ends) + tailOf(ladder), met };
}

/** How far each cell is moved to the right. */
function placesOf(ladder: Ladder, cells: readonly Cell[], { right, tubeAt }: StripPlace): number[] {
  const boxes = cells.map(cellBox);
  const width = (index: number): number => {
    const box = boxes[index];
    return box ? box.right - box.left : 0;
  };
  const wanted = cells.map((cell) => {
    const below = cell.symbols.flatMap(({ part, symbol, at }) => {
      const x = symbol === 'filament' ? tubeAt.get(part) : undefined;
      return x === undefined ? [] : [x - at.x];
    });
    if (below.length === 0) return undefined;
    return Math.round(below.reduce((sum, x) => sum + x, 0) / below.length / 5) * 5;
  });
  const order = cells
    .map((_, index) => index)
    .filter((index) => wanted[index] !== undefined)
    .sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const places: number[] = [];
  const taken: { left: number; right: number }[] = [];
  const put = (index: number, left: number): void => {
    places[index] = left - (boxes[index]?.left ?? 0);
    taken.push({ left, right: left + width(index) });
    taken.sort((a, b) => a.left - b.left);
  };
  let last = 0;
  for (const index of order) {
    const left = Math.max(last, (wanted[index] ?? 0) + (boxes[index]?.left ?? 0));
    put(index, left);
    last = left + width(index) + closest;
  }
  const free = cells.map((_, index) => index).filter((index) => wanted[index] === undefined);
  if (order.length > 0) {
    for (const index of free) put(index, firstGap(taken, width(index)));
    return places;
  }
  const total = free.reduce((sum, index) => sum + width(index), 0);
  const spare = (right - tailOf(ladder) - 20 - total) / Math.max(1, free.length);
  const gap = Math.floor(Math.min(widest, Math.max(closest, spare)) / 10) * 10;
  let x = 20;
  for (const index of free) {
    put(index, x);
    x += width(index) + gap;
  }
  return places;
}

/** The first room that is wide enough among what is taken. */
function firstGap(taken: readonly { left: number; right: number }[], width: number): number {
  let left = 0;
  for (const each of taken) {
    if (each.left - closest >= left + width) return left;
    left = Math.max(left, each.right + closest);
  }
  return left;
}

/** The two lines of the upper piece of a folded strip, each with its name at the left. */
export function drawNamedLines(
  canvas: Canvas,
  paper: Paper,
  { upper, lower }: Ladder,
  { upperY, lowerY, met }: PlacedStrip,
): void {
  for (const [net, y, feet] of [
    [upper, upperY, met.upper],
    [lower, lowerY, met.lower],
  ] as const) {
    if (net < 0 || feet.length === 0) continue;
    const left = Math.min(...feet) - 12;
    wire(canvas, net, left, y, Math.max(...feet), y);
    addMark(paper, canvas, net, { x: left, y }, 'bar-left');
  }
}

/**
 * The two lines of the strip out to their terminals at the right edge. Returns the lower edge and
 * the junctions whose terminals are drawn.
 */
export function drawStripLines(
  canvas: Canvas,
  paper: Paper,
  ladder: Ladder,
  { upperY, lowerY, met }: PlacedStrip,
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
): { bottom: number; stacked: Set<number> } {
  const stacked = new Set<number>();
  const line = (
    net: number,
    supply: number,
    tail: Part | undefined,
    y: number,
    feet: readonly number[],
    free = 0,
  ): number => {
    if (net < 0) return y;
    const start = Math.min(...feet, ...(tail ? [edge - 100] : []));
    if (tail) {
      const near = tail.ends.find((end) => end.junction === net);
      const far = tail.ends.find((end) => end.junction === supply);
      const at = edge - 80;
      wire(canvas, net, start - 12, y, at, y);
      flatPart(canvas, tail, at, y, near, far);
      wire(canvas, supply, at + 40, y, edge, y);
      addMark(paper, canvas, net, { x: start - 12, y }, 'bar-left');
    } else if (feet.length > 0) wire(canvas, net, start, y, edge, y);
    stacked.add(supply);
    // Between the two lines, where there is room: so much less paper is wanted below.
    const stack = terminals.get(supply) ?? [];
    const upwards = (stack.length - 1) * stackStep <= free - stackStep - 6;
    return drawStack(paper, canvas, supply, stack, edge, y, false, upwards);
  };
  const below = line(ladder.upper, ladder.upperSupply, ladder.upperTail, upperY, met.upper);
  const { lower, lowerSupply, lowerTail } = ladder;
  const bottom = line(lower, lowerSupply, lowerTail, lowerY, met.lower, lowerY - below);
  return { bottom: Math.max(below, bottom), stacked };
}
