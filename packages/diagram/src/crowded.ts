import { boxBetween, grown, overlap } from './box.ts';
import { pointSet } from './point-set.ts';
import type { Box, Pin, Scene } from './scene.ts';

interface Piece {
  readonly net: string;
  readonly box: Box;
  readonly upright: boolean;
}

/** A wire that steps aside by less than this looks like one that was drawn badly. */
const leastStep = 8;

/**
 * Names of junctions whose wires a reader could take wrong, though they join what they should:
 * they run through a symbol or a word, close along another junction's wire, step aside by a hair,
 * or meet four ways.
 */
export function crowdedNets({ wires, symbols, labels, marks }: Scene): Set<string> {
  const pieces = wires.flatMap(({ net, points }): Piece[] =>
    points.slice(1).map((to, index) => {
      const from = points[index] ?? to;
      return { net, box: boxBetween(from, to), upright: from.x === to.x };
    }),
  );
  const things: Thing[] = [
    ...symbols
      .filter(({ symbol }) => symbol !== 'name' && symbol !== 'terminal')
      .map(({ box, pins }) => ({ box: grown(box, -1.5), pins })),
    ...marks
      .filter(({ shape }) => shape !== 'none')
      .map(({ box }) => ({ box: grown(box, -1.5), pins: [] })),
    ...labels.map(({ box }) => ({ box, pins: [] })),
  ];
  const level = pieces.filter(({ upright }) => !upright);
  const upright = pieces.filter((piece) => piece.upright);
  const crowded = new Set<string>();
  for (const { net } of [
    ...throughThings(level, things, 'top', 'bottom'),
    ...throughThings(upright, things, 'left', 'right'),
  ]) {
    crowded.add(net);
  }
  for (const [one, other] of [
    ...closePairs(level, 'top', 'bottom'),
    ...closePairs(upright, 'left', 'right'),
  ]) {
    if (one.net !== other.net && sideBySide(one.box, other.box, one.upright)) {
      crowded.add(one.net).add(other.net);
    }
  }
  for (const net of fourWayNets(wires)) crowded.add(net);
  const anchors = pointSet([...symbols.flatMap(({ pins }) => pins), ...marks].map(({ at }) => at));
  for (const { net, points } of wires) {
    const [from, to] = [points[0], points.at(-1)];
    if (!from || !to || Math.abs(to.x - from.x) + Math.abs(to.y - from.y) >= leastStep) continue;
    if (!anchors.has(from) && !anchors.has(to)) crowded.add(net);
  }
  return crowded;
}

/** What a wire must not run through, and the ends that it may begin at. */
interface Thing {
  readonly box: Box;
  readonly pins: readonly Pin[];
}

/** The paper in strips of this breadth: what is in none of a piece's own is not looked at. */
const strip = 40;

/**
 * The pieces that run through a thing.
 *
 * @param low the edge of all that the pieces are thin along, and its opposite
 */
function throughThings(
  pieces: readonly Piece[],
  things: readonly Thing[],
  low: 'left' | 'top',
  high: 'right' | 'bottom',
): Piece[] {
  const inStrip = new Map<number, Thing[]>();
  for (const thing of things) {
    const last = Math.floor(thing.box[high] / strip);
    for (let at = Math.floor(thing.box[low] / strip); at <= last; at++) {
      const own = inStrip.get(at);
      if (own) own.push(thing);
      else inStrip.set(at, [thing]);
    }
  }
  return pieces.filter(({ box }) => {
    const last = Math.floor(box[high] / strip);
    for (let at = Math.floor(box[low] / strip); at <= last; at++) {
      for (const { box: other, pins } of inStrip.get(at) ?? []) {
        if (overlap(box, other) && !begins(box, pins)) return true;
      }
    }
    return false;
  });
}

/** Whether a level piece is at a pin: a tap's lead begins within its winding, on one side or both. */
const begins = (box: Box, pins: readonly Pin[]): boolean =>
  pins.some(({ at }) => at.y === box.top && at.y === box.bottom && isWithin(at.x, box));

/**
 * Pairs of pieces that come nearer to each other than two units, each pair once.
 *
 * @param low the edge of all that the pieces are thin along, and its opposite
 */
function closePairs(
  pieces: readonly Piece[],
  low: 'left' | 'top',
  high: 'right' | 'bottom',
): [Piece, Piece][] {
  const sorted = [...pieces].sort((a, b) => a.box[low] - b.box[low]);
  const pairs: [Piece, Piece][] = [];
  for (const [index, one] of sorted.entries()) {
    const near = grown(one.box, 2);
    for (let at = index + 1; at < sorted.length; at++) {
      const other = sorted[at];
      if (!other || other.box[low] >= near[high]) break;
      if (overlap(near, other.box)) pairs.push([one, other]);
    }
  }
  return pairs;
}

const isWithin = (x: number, { left, right }: Box): boolean => x >= left && x <= right;

/** Whether two upright or two level lines have some of their length in common. */
const sideBySide = (a: Box, b: Box, upright: boolean): boolean =>
  upright
    ? Math.min(a.bottom, b.bottom) > Math.max(a.top, b.top)
    : Math.min(a.right, b.right) > Math.max(a.left, b.left);

/** Junctions of which wires leave a point in all four directions. */
function fourWayNets(wires: Scene['wires']): string[] {
  const level = wires.filter(({ points: [from, to] }) => from?.y === to?.y);
  const ends = wires.flatMap(({ net, points: [from, to] }) =>
    from && to && from.x === to.x
      ? [from, to].map((at) => ({ net, at, isTop: at.y < Math.max(from.y, to.y) }))
      : [],
  );
  return ends
    .filter(
      ({ net, at, isTop }) =>
        isTop &&
        ends.some(
          (other) =>
            other.net === net && !other.isTop && other.at.x === at.x && other.at.y === at.y,
        ) &&
        level.some(({ net: its, points: [from, to] }) => {
          if (its !== net || !from || !to || from.y !== at.y) return false;
          return at.x > Math.min(from.x, to.x) && at.x < Math.max(from.x, to.x);
        }),
    )
    .map(({ net }) => net);
}
