import type { Cell } from '../cell.ts';
import type { Point } from '../scene.ts';
import { type Body, blocksOf, distances } from './blocks.ts';
import { type Distance, onGrid } from './distance.ts';

import { drawAfter, passed, tryLeft } from './moves.ts';
import { cornersOf, type Run, turned } from './run.ts';
import { smooth } from './smooth.ts';
import { straighten } from './straighten.ts';

/**
 * Moves everything in a row to the left as far as nothing comes too near to anything else. The
 * order of things side by side stays as it was, so no wire crosses what it did not cross before;
 * nothing moves up or down.
 *
 * @param sequence pairs of cells of which the second stands to the right of the first, whatever
 * their heights, if that can be
 */
export function drawTogether(
  cells: readonly Cell[],
  offsets: readonly Point[],
  runs: readonly Run[],
  sequence: readonly (readonly [number, number])[] = [],
): { offsets: Point[]; runs: Run[] } {
  const bodies: Body[] = cells.map((cell, index) =>
    blocksOf(cell, offsets[index] ?? { x: 0, y: 0 }),
  );
  const owners = runs.map((run) => ownersOf(run, bodies));
  const touching = runs.flatMap((run, which) => lengthsOf(run, owners[which] ?? []));
  const wanted = [...touching, ...distances(bodies)];
  const ordered = [...wanted, ...sequence.map(([before, after]) => passed(bodies, before, after))];
  const [moves, kept] = tryLeft(bodies, ordered) ??
    tryLeft(bodies, wanted) ?? [bodies.map(() => 0), wanted];
  drawAfter(bodies, kept, touching, moves);
  for (const [which, run] of runs.entries()) {
    straighten(bodies, kept, moves, run, owners[which] ?? [], cells);
  }
  const moved = runs.map((run, which): Run => {
    const points = run.points.map(({ x, y }, index) => ({
      x: x + (moves[owners[which]?.[index] ?? -1] ?? 0),
      y,
    }));
    return { ...run, points: cornersOf(points) };
  });
  const begins = ({ net, from, points }: Run, { x, y }: Point, cell: number, on: number): boolean =>
    net === on && from === cell && points[0]?.x === x && points[0].y === y;
  const meets = ({ net, from, points: [start] }: Run): boolean =>
    start !== undefined &&
    moved.filter((run) => [run, turned(run)].some((each) => begins(each, start, from, net)))
      .length > 1;
  return {
    offsets: offsets.map(({ x, y }, index) => ({ x: x + (moves[index] ?? 0), y })),
    runs: moved
      .map((run, which) => {
        const own = owners[which] ?? [];
        return smooth(run, bodies, moves, [own[1], own.at(-2)], meets);
      })
      // Where two cells have come to meet there is no wire between.
      .filter(({ points }) => points.length > 1),
  };
}

/** Which body each point of a run belongs to; its upright pieces become bodies of their own. */
function ownersOf({ net, from, to, points }: Run, bodies: Body[]): number[] {
  const last = points.length - 1;
  const own = points.map((_, index) => (index === 0 ? from : index === last ? to : -1));
  for (const [index, point] of points.entries()) {
    const next = points[index + 1];
    if (!next || next.x !== point.x || next.y === point.y) continue;
    if (own[index] !== -1 || own[index + 1] !== -1) continue;
    own[index] = bodies.length;
    own[index + 1] = bodies.length;
    const [top, bottom] = [Math.min(point.y, next.y), Math.max(point.y, next.y)];
    bodies.push([{ kind: 'wire', net, left: point.x, right: point.x, top, bottom }]);
  }
  for (const index of new Set([0, last])) {
    const [body, end] = [own[index], points[index]];
    if (body === undefined || body < 0 || !end) continue;
    bodies[body] = [
      ...(bodies[body] ?? []),
      { kind: 'wire', net, left: end.x, right: end.x, top: end.y, bottom: end.y },
    ];
  }
  return own;
}

/** How short the level pieces of a run may become. */
function lengthsOf({ points, rooms }: Run, owners: readonly number[]): Distance[] {
  return points.flatMap((point, index): Distance[] => {
    const next = points[index + 1];
    const [one, other] = [owners[index], owners[index + 1]];
    if (!next || one === undefined || other === undefined || one === other) return [];
    const length = next.x - point.x;
    const room = Math.max(
      10,
      index === 0 ? rooms[0] : 0,
      index === points.length - 2 ? rooms[1] : 0,
    );
    const least = onGrid(Math.min(Math.abs(length), room) - Math.abs(length));
    return [
      length >= 0 ? { before: one, after: other, least } : { before: other, after: one, least },
    ];
  });
}
