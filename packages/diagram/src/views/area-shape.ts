import { boxAbout, grown, isInside, overlap } from '../box.ts';
import type { Box, Point } from '../scene.ts';
import { gap } from './free-place.ts';
import { straightened } from './roads.ts';

/** What an area is made of. */
export interface AreaParts {
  /** How far it may go. */
  readonly bounds: Box;
  /** Symbols and words that belong to it. */
  readonly own: readonly Box[];
  /** The same, each part with its words as one. */
  readonly ownParts: readonly Box[];
  /** Parts that do not belong to it, with their words. */
  readonly foreign: readonly Box[];
  /** Areas of others, which take the ground that both could have. */
  readonly rivals: readonly Box[];
}

export interface AreaShape {
  /** Closed lines, each without its first point again at its end; what lies in two is a window. */
  readonly outlines: readonly (readonly Point[])[];
  /** Whether a box lies in the area, clear of all that does not belong to it. */
  readonly isWithin: (box: Box) => boolean;
}

/** Shaded air about what belongs to an area and stands beside a window. */
const CLOSE = 2;
/** Shaded air that a part keeps about it where another area has the ground. */
const KEPT = 4;
/** White air about what does not belong to an area. */
const WHITE = 8;
/** Windows nearer than this to one another, or to the edge, are one with it. */
const NARROW = 16;

/** An area's bounds, with windows for strangers in it: rectangles, with few corners. */
export function areaShape({ bounds, own, ownParts, foreign, rivals }: AreaParts): AreaShape {
  const windows = together(
    foreign.filter((box) => overlap(box, bounds)).map((box) => grown(box, WHITE)),
    own,
  ).map((box) => toEdge(box, bounds, own));
  const given = rivals.filter((box) => overlap(box, bounds)).map((box) => grown(box, WHITE - KEPT));
  const taken = [...windows, ...given];
  const isWithin = (box: Box): boolean =>
    isInside(box, bounds) && !taken.some((t) => overlap(t, box));
  if (taken.length === 0) return { outlines: [cornersOf(bounds)], isWithin };
  const close = own.map((box) => grown(box, CLOSE));
  // What stands wholly beside a rival needs none of its ground.
  const kept = ownParts
    .filter((box) => rivals.some((rival) => overlap(box, rival)))
    .map((box) => grown(box, KEPT));
  const isIn = (at: Point): boolean => {
    const among = (list: readonly Box[]): boolean => list.some((box) => holds(box, at));
    if (among(own)) return true;
    if (among(windows)) return among(close);
    return !among(given) || among(kept);
  };
  const boxes = [bounds, ...own, ...close, ...kept, ...taken];
  const xs = within(
    boxes.flatMap(({ left, right }) => [left, right]),
    bounds.left,
    bounds.right,
  );
  const ys = within(
    boxes.flatMap(({ top, bottom }) => [top, bottom]),
    bounds.top,
    bounds.bottom,
  );
  return { outlines: outlinesOf(xs, ys, isIn), isWithin };
}

const holds = (box: Box, { x, y }: Point): boolean =>
  x > box.left && x < box.right && y > box.top && y < box.bottom;

/** Boxes that lie close together as one, where nothing that is kept lies in it. */
function together(boxes: readonly Box[], keep: readonly Box[]): Box[] {
  const made = [...boxes];
  for (let index = 0; index < made.length; index++) {
    for (let other = index + 1; other < made.length; other++) {
      const [a, b] = [made[index], made[other]];
      if (!a || !b || gap(a, b) >= NARROW) continue;
      const both = boxAbout(a, b);
      const hurt = keep.some((box) => overlap(box, both) && !overlap(box, a) && !overlap(box, b));
      if (hurt) continue;
      made.splice(other, 1);
      made[index] = both;
      // What was too far from either may be near to both.
      index = -1;
      break;
    }
  }
  return made;
}

/** A window drawn out to the edges that it is near to, where nothing that is kept is in the way. */
function toEdge(window: Box, bounds: Box, keep: readonly Box[]): Box {
  let drawn = window;
  for (const side of ['left', 'top', 'right', 'bottom'] as const) {
    if (Math.abs(drawn[side] - bounds[side]) >= NARROW) continue;
    const further = { ...drawn, [side]: bounds[side] };
    const strip = {
      ...further,
      ...(side === 'left' ? { right: drawn.left } : {}),
      ...(side === 'right' ? { left: drawn.right } : {}),
      ...(side === 'top' ? { bottom: drawn.top } : {}),
      ...(side === 'bottom' ? { top: drawn.bottom } : {}),
    };
    if (!keep.some((box) => overlap(box, strip))) drawn = further;
  }
  return drawn;
}

const cornersOf = ({ left, top, right, bottom }: Box): Point[] => [
  { x: left, y: top },
  { x: right, y: top },
  { x: right, y: bottom },
  { x: left, y: bottom },
];

/** Values in order, each once, with the two ends and nothing beyond them. */
function within(values: readonly number[], low: number, high: number): number[] {
  const inner = values.filter((value) => value > low && value < high);
  return [...new Set([low, ...inner, high])].sort((a, b) => a - b);
}

/** The lines around those fields of a grid of which the middle is in. */
function outlinesOf(
  xs: readonly number[],
  ys: readonly number[],
  isIn: (at: Point) => boolean,
): Point[][] {
  const middle = (values: readonly number[], index: number): number =>
    ((values[index] ?? 0) + (values[index + 1] ?? 0)) / 2;
  const fields = new Set<string>();
  for (let x = 0; x + 1 < xs.length; x++)
    for (let y = 0; y + 1 < ys.length; y++)
      if (isIn({ x: middle(xs, x), y: middle(ys, y) })) fields.add(`${x} ${y}`);
  // Every side that has a field on one hand only, with the field at its right.
  const next = new Map<string, Point[]>();
  const side = (from: Point, to: Point): void => {
    const key = `${from.x} ${from.y}`;
    next.set(key, [...(next.get(key) ?? []), to]);
  };
  for (const field of fields) {
    const [x = 0, y = 0] = field.split(' ').map(Number);
    if (!fields.has(`${x} ${y - 1}`)) side({ x, y }, { x: x + 1, y });
    if (!fields.has(`${x + 1} ${y}`)) side({ x: x + 1, y }, { x: x + 1, y: y + 1 });
    if (!fields.has(`${x} ${y + 1}`)) side({ x: x + 1, y: y + 1 }, { x, y: y + 1 });
    if (!fields.has(`${x - 1} ${y}`)) side({ x, y: y + 1 }, { x, y });
  }
  const outlines: Point[][] = [];
  for (const [key, ways] of next) {
    while (ways.length > 0) {
      const [x = 0, y = 0] = key.split(' ').map(Number);
      const loop: Point[] = [{ x, y }];
      for (let at = ways.pop(); at && !(at.x === x && at.y === y); ) {
        loop.push(at);
        at = next.get(`${at.x} ${at.y}`)?.pop();
      }
      const closed = straightened([...loop, { x, y }]).slice(0, -1);
      outlines.push(closed.map((at) => ({ x: xs[at.x] ?? 0, y: ys[at.y] ?? 0 })));
    }
  }
  return outlines;
}
