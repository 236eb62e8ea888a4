import { grown } from '../box.ts';
import type { Box, PlacedSymbol, Point, Scene } from '../scene.ts';

/** Clear paper between a field's line and words, in drawing units. */
const AIR = 3;
/** From one bend that is tried to the next. */
const STEP = 8;
/** How far beside the straight line a bend may lie. */
const ASIDE = 40;
/** To run over the symbol of another part is as bad as a way so much longer. */
const OVER_SYMBOL = 60;

/** Where along the height of its symbols a straight line may run, the middle first. */
const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];

/**
 * The line along which a field couples two symbols: straight from middle to middle; where it would
 * run over words so, higher or lower, or with one bend.
 */
export function fieldLine(
  { labels, symbols }: Pick<Scene, 'labels' | 'symbols'>,
  from: PlacedSymbol,
  to: PlacedSymbol,
): readonly Point[] {
  const [a, b] = [middleOf(from), middleOf(to)];
  const words = labels.map(({ box }) => grown(box, AIR));
  const isClear = (points: readonly Point[]): boolean =>
    words.every((box) => !crosses(points, box));
  for (const share of SHARES) {
    const straight = [alongside(from, share), alongside(to, share)];
    if (isClear(straight)) return straight;
  }
  const others = symbols.filter((each) => each !== from && each !== to).map(({ box }) => box);
  let best: readonly Point[] = [a, b];
  let least = Number.POSITIVE_INFINITY;
  for (let x = Math.min(a.x, b.x) - ASIDE; x <= Math.max(a.x, b.x) + ASIDE; x += STEP) {
    for (let y = Math.min(a.y, b.y) - ASIDE; y <= Math.max(a.y, b.y) + ASIDE; y += STEP) {
      const points = [a, { x, y }, b];
      const length = Math.hypot(x - a.x, y - a.y) + Math.hypot(b.x - x, b.y - y);
      const over = others.filter((box) => crosses(points, box)).length;
      const worth = length + over * OVER_SYMBOL;
      if (worth < least && isClear(points)) [best, least] = [points, worth];
    }
  }
  return best;
}

/** Whether a run of straight pieces meets a box. */
function crosses(points: readonly Point[], box: Box): boolean {
  return points.some((to, index) => {
    const from = points[index - 1];
    return from !== undefined && meets(from, to, box);
  });
}

/** Clips the piece at the box's sides: something is left where it runs through. */
function meets(from: Point, to: Point, { left, top, right, bottom }: Box): boolean {
  let [start, end] = [0, 1];
  for (const [at, by, low, high] of [
    [from.x, to.x - from.x, left, right],
    [from.y, to.y - from.y, top, bottom],
  ] as const) {
    if (by === 0) {
      if (at <= low || at >= high) return false;
      continue;
    }
    const [one, other] = [(low - at) / by, (high - at) / by];
    start = Math.max(start, Math.min(one, other));
    end = Math.min(end, Math.max(one, other));
  }
  return start < end;
}

function alongside({ box }: PlacedSymbol, share: number): Point {
  return { x: (box.left + box.right) / 2, y: box.top + share * (box.bottom - box.top) };
}

export function middleOf({ box }: PlacedSymbol): Point {
  return { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
}
