import { boxBetween } from '../box.ts';
import type { Cell } from '../cell.ts';
import type { Box, Point } from '../scene.ts';
import { type Distance, onGrid } from './distance.ts';

/** Something that keeps its distance from others. */
export interface Block extends Box {
  readonly kind: 'wire' | 'symbol' | 'text';
  /** The junction of a wire; -1 where there is none. */
  readonly net: number;
}

/** What moves as one: a cell with all that is in it, or an upright piece of a run. */
export type Body = readonly Block[];

/** Things closer to one level than this count as standing side by side. */
const air = 5;
const endless = 1e6;

/** Clear paper between two kinds of things, side by side. */
const gaps: Readonly<Record<Block['kind'], Readonly<Record<Block['kind'], number>>>> = {
  wire: { wire: 10, symbol: 10, text: 7 },
  symbol: { wire: 10, symbol: 14, text: 8 },
  text: { wire: 7, symbol: 8, text: 10 },
};

/** The most of them. */
const broadest = 14;

/** All that a cell holds, where it stands; rails run out of it to the edge of the row. */
export function blocksOf(cell: Cell, { x, y }: Point): Block[] {
  const blocks: Block[] = [];
  const add = (kind: Block['kind'], net: number, box: Box): void => {
    const { left, right, top, bottom } = box;
    blocks.push({ kind, net, left: left + x, right: right + x, top: top + y, bottom: bottom + y });
  };
  const addPieces = (net: number, points: readonly Point[]): void => {
    for (let index = 1; index < points.length; index++) {
      const [from, to] = [points[index - 1], points[index]];
      if (from && to) add('wire', net, boxBetween(from, to));
    }
  };
  for (const { box } of cell.symbols) add('symbol', -1, box);
  for (const { box } of cell.labels) add('text', -1, box);
  for (const { box } of cell.marks) add('text', -1, box);
  for (const { net, points } of cell.wires) addPieces(net, points);
  for (const { points } of cell.ornaments) addPieces(-1, points);
  for (const { net, at, up } of cell.drops) {
    add('wire', net, boxBetween(at, { x: at.x, y: up ? -endless : endless }));
  }
  return blocks;
}

/** How much room two things side by side want between them. */
function gapOf(a: Block, b: Block): number {
  if (a.kind !== 'wire' || b.kind !== 'wire' || a.net !== b.net) return gaps[a.kind][b.kind];
  // Wires of one junction may meet, but two that run side by side look like two.
  return a.top < a.bottom && b.top < b.bottom ? 10 : 0;
}

/** Whatever stands side by side stays so, and in that order. */
export function distances(bodies: readonly Body[]): Distance[] {
  const found: Distance[] = [];
  const fromRight = bodies.map((body) => [...body].sort((a, b) => b.right - a.right));
  const fromLeft = bodies.map((body) => [...body].sort((a, b) => a.left - b.left));
  const add = (before: number, after: number): void => {
    const least = leastMove(fromRight[before] ?? [], fromLeft[after] ?? []);
    if (least !== undefined) found.push({ before, after, least: onGrid(least) });
  };
  for (let one = 0; one < bodies.length; one++) {
    for (let other = one + 1; other < bodies.length; other++) {
      add(one, other);
      add(other, one);
    }
  }
  return found;
}

/**
 * The least that `right` must move after `left`, from what of it stands to the right of that.
 *
 * @param left what stands farthest to the right first
 * @param right what begins farthest to the left first
 */
function leastMove(left: Body, right: Body): number | undefined {
  const [first, last] = [right[0], right.at(-1)];
  if (!first || !last) return undefined;
  let least: number | undefined;
  for (const a of left) {
    // Only what has something to the left of something in the other can stand to the left of it.
    if (a.right > last.left) continue;
    // What stands so far off moves nothing that nearer things do not.
    if (least !== undefined && broadest - (first.left - a.right) <= least) break;
    for (const b of right) {
      const now = b.left - a.right;
      if (now < 0) continue;
      if (least !== undefined && broadest - now <= least) break;
      if (a.top > b.bottom + air || b.top > a.bottom + air) continue;
      const move = Math.min(gapOf(a, b), now) - now;
      if (least === undefined || move > least) least = move;
    }
  }
  return least;
}
