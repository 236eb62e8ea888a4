import { boxBetween } from './box.ts';
import { mergeWires } from './merge-wires.ts';
import type { Box, Point, Wire } from './scene.ts';
import { wiresByNet } from './wires-by-net.ts';

/** What wires must keep clear of. */
export interface Obstacles {
  /** Symbols, lettering and rail symbols. */
  readonly boxes: readonly Box[];
  /** Ends of parts and rail symbols, where wires begin. */
  readonly pins: readonly Point[];
}

interface Joint {
  readonly net: string;
  readonly at: Point;
  /** The upright wires that leave it downwards and upwards. */
  readonly arms: readonly Wire[];
}

/** How far to the side an arm may be moved, nearest first. */
const shifts = [10, -10, 15, -15, 20, -20, 30, -30, 40, -40];
/** Wires of two junctions side by side, and wires beside symbols, keep this apart. */
const [apart, clear] = [8, 3];

/**
 * The same wires without a dot at which four of them meet, which a reader may take for a plain
 * crossing: one of the two upright ones is moved to the side, where there is room for it. Takes
 * and gives wires that are straight pieces, as `mergeWires` gives them.
 */
export function partJoints(wires: readonly Wire[], obstacles: Obstacles): Wire[] {
  let now = [...wires];
  for (let round = 0; round < 40; round++) {
    const better = fourWays(now)
      .map((joint) => parted(joint, now, obstacles))
      .find((found) => found !== undefined);
    if (!better) return now;
    now = better;
  }
  return now;
}

const isUpright = ({ points: [from, to] }: Wire): boolean =>
  from !== undefined && to !== undefined && from.x === to.x && from.y !== to.y;
const isLevel = ({ points: [from, to] }: Wire): boolean =>
  from !== undefined && to !== undefined && from.y === to.y && from.x !== to.x;
const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;

/** Points within a level wire at which one upright wire ends from above and one from below. */
function fourWays(wires: readonly Wire[]): Joint[] {
  const uprights = wiresByNet(wires.filter(isUpright));
  return wires.filter(isLevel).flatMap(({ net, points }): Joint[] => {
    const own = uprights.get(net);
    // It takes one from above and one from below.
    if (!own || own.length < 2) return [];
    const [left, right] = ordered(points, 'x');
    const ends = own.flatMap((each) => each.points);
    const inside = ends.filter(({ x, y }) => y === left.y && x > left.x && x < right.x);
    return inside.flatMap((at, index): Joint[] => {
      if (inside.findIndex((other) => same(at, other)) !== index) return [];
      const arms = own.filter((each) => each.points.some((end) => same(end, at)));
      return arms.length === 2 ? [{ net, at, arms }] : [];
    });
  });
}

function ordered(points: readonly Point[], along: 'x' | 'y'): readonly [Point, Point] {
  const [from = { x: 0, y: 0 }, to = from] = points;
  return from[along] <= to[along] ? [from, to] : [to, from];
}

/** The wires with one arm of a joint moved aside, in the way that crosses least; if there is one. */
function parted({ net, at, arms }: Joint, wires: readonly Wire[], obstacles: Obstacles) {
  let best: { readonly wires: Wire[]; readonly cost: number } | undefined;
  for (const arm of arms) {
    const end = arm.points.find((each) => !same(each, at));
    if (!end) continue;
    // Only as far as the next wire that meets the arm; what is beyond stays.
    const far = nextOn(arm, at, wires) ?? end;
    const rest = same(far, end) ? [] : [{ net, points: [far, end] }];
    const others = [...wires.filter((other) => other !== arm), ...rest];
    for (const [rank, shift] of shifts.entries()) {
      for (const way of waysAround(at, far, shift)) {
        const crossed = crossings(way, net, others, obstacles);
        if (crossed === undefined) continue;
        const cost = crossed * 100 + rank + way.length;
        if (best && best.cost <= cost) continue;
        best = { wires: mergeWires([...others, { net, points: way }]), cost };
      }
    }
  }
  return best?.wires;
}

/** Where the next wire of its own junction meets an arm, seen from the joint. */
function nextOn(arm: Wire, at: Point, wires: readonly Wire[]): Point | undefined {
  const [upper, lower] = ordered(arm.points, 'y');
  return wires
    .filter((other) => other.net === arm.net && isLevel(other))
    .flatMap(({ points }) => points)
    .filter(({ x, y }) => x === upper.x && y > upper.y && y < lower.y)
    .sort((a, b) => Math.abs(a.y - at.y) - Math.abs(b.y - at.y))[0];
}

/** From a joint to the far end of an arm, beside the arm: straight, or back to its line before. */
function waysAround(at: Point, far: Point, shift: number): Point[][] {
  const x = at.x + shift;
  const length = Math.abs(far.y - at.y);
  const begin = { x, y: at.y };
  const turns = length >= 28 ? [far.y - Math.sign(far.y - at.y) * 10] : [];
  return [...turns, ...(length >= 20 ? [(at.y + far.y) / 2] : [])].map((y) => [
    at,
    begin,
    { x, y },
    { x: far.x, y },
    far,
  ]);
}

/** How many wires of other junctions a way crosses; undefined where it may not run. */
function crossings(
  way: readonly Point[],
  net: string,
  wires: readonly Wire[],
  { boxes, pins }: Obstacles,
): number | undefined {
  let count = 0;
  const [first, last] = [way[0], way.at(-1)];
  for (const [index, to] of way.slice(1).entries()) {
    const from = way[index] as Point;
    const box = boxBetween(from, to);
    for (const each of boxes)
      if (overlaps(box, each, isEnd(each, last) ? -1 : clear)) return undefined;
    for (const pin of pins) {
      const isOwn = (first && same(pin, first)) || (last && same(pin, last));
      if (!isOwn && touches(pin, box)) return undefined;
    }
    const upright = from.x === to.x;
    for (const other of wires) {
      const [a, b] = other.points;
      if (!a || !b) continue;
      const its = boxBetween(a, b);
      if (other.net === net) {
        // Nothing of its own is met on the way; the first piece lies along the level wire.
        if (upright && isLevel(other) && crosses(box, its)) return undefined;
        if (upright && isUpright(other) && overlaps(box, its, 1)) return undefined;
        if (!upright && index > 0 && isUpright(other) && touchesAny(box, its)) return undefined;
        continue;
      }
      const along = isUpright(other) === upright;
      if (along && overlaps(box, its, apart)) return undefined;
      if (along || !touchesAny(box, its)) continue;
      if (!crosses(box, its)) return undefined;
      count++;
    }
  }
  return count;
}

/** Whether a box is the symbol that a way leads to. */
const isEnd = (box: Box, last: Point | undefined): boolean =>
  last !== undefined && touches(last, box);

const touches = ({ x, y }: Point, box: Box): boolean =>
  x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;

const overlaps = (a: Box, b: Box, air: number): boolean =>
  a.left - air < b.right &&
  b.left < a.right + air &&
  a.top - air < b.bottom &&
  b.top < a.bottom + air;

const touchesAny = (a: Box, b: Box): boolean =>
  a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom;

/** Whether an upright and a level line cross at a point within both. */
function crosses(a: Box, b: Box): boolean {
  const [upright, level] = a.left === a.right ? [a, b] : [b, a];
  return (
    upright.left > level.left &&
    upright.left < level.right &&
    level.top > upright.top &&
    level.top < upright.bottom
  );
}
