import type { Body } from './blocks.ts';
import { type Distance, onGrid } from './distance.ts';

/** How far a cell must move to stand wholly to the right of another. */
export function passed(bodies: readonly Body[], before: number, after: number): Distance {
  const right = Math.max(...(bodies[before] ?? []).map((block) => block.right));
  const left = Math.min(...(bodies[after] ?? []).map((block) => block.left));
  return { before, after, least: onGrid(right + 10 - left) };
}

/** The smallest moves that keep every distance; undefined where they contradict one another. */
export function tryLeft(
  bodies: readonly Body[],
  wanted: readonly Distance[],
): [number[], readonly Distance[]] | undefined {
  const lefts = bodies.map((body) => Math.min(...body.map(({ left }) => left)));
  const edge = Math.min(...lefts);
  const moves = lefts.map((left) => (Number.isFinite(left) ? onGrid(edge - left) : 0));
  for (let round = 0; round <= bodies.length; round++) {
    let moved = false;
    for (const { before, after, least } of wanted) {
      const needed = (moves[before] ?? 0) + least;
      if (needed <= (moves[after] ?? 0)) continue;
      moves[after] = needed;
      moved = true;
    }
    if (!moved) return [moves, wanted];
  }
  return undefined;
}

/** What more wires lead on to the right than to the left follows them, as far as it may. */
export function drawAfter(
  bodies: readonly Body[],
  wanted: readonly Distance[],
  touching: readonly Distance[],
  moves: number[],
): void {
  const pull = bodies.map(() => 0);
  for (const { before, after } of touching) {
    pull[before] = (pull[before] ?? 0) + 1;
    pull[after] = (pull[after] ?? 0) - 1;
  }
  const place = (index: number): number =>
    Math.max(...(bodies[index] ?? []).map(({ right }) => right)) + (moves[index] ?? 0);
  const order = [...bodies.keys()]
    .filter((index) => (pull[index] ?? 0) > 0)
    .sort((a, b) => place(b) - place(a));
  for (const index of order) {
    const group = new Set([index]);
    let force = pull[index] ?? 0;
    // What stands in the way comes along as long as the group as a whole is drawn to the right.
    while (force > 0) {
      const { room, inTheWay } = roomAfter(group, wanted, moves);
      if (inTheWay.length > 0) {
        for (const other of inTheWay) {
          group.add(other);
          force += pull[other] ?? 0;
        }
      } else if (Number.isFinite(room)) {
        for (const member of group) moves[member] = (moves[member] ?? 0) + room;
      } else break;
    }
  }
}

/** How far a group may move, and what hinders it from moving at all. */
function roomAfter(
  group: ReadonlySet<number>,
  wanted: readonly Distance[],
  moves: readonly number[],
): { room: number; inTheWay: number[] } {
  let room = Number.POSITIVE_INFINITY;
  const inTheWay = new Set<number>();
  for (const { before, after, least } of wanted) {
    if (!group.has(before) || group.has(after)) continue;
    const slack = (moves[after] ?? 0) - least - (moves[before] ?? 0);
    if (slack <= 0) inTheWay.add(after);
    else room = Math.min(room, slack);
  }
  return { room, inTheWay: [...inTheWay] };
}
