import type { Box, Point } from '../scene.ts';
import type { Body } from './blocks.ts';
import { cornersOf, type Run } from './run.ts';

/** Clear paper to either side of a wire that is made straight. */
const beside = 7;

/**
 * A run that steps aside and comes back to where it stood goes straight down, where nothing stands
 * between.
 */
export function goStraight(run: Run, bodies: readonly Body[], moves: readonly number[]): Run {
  for (let index = 0; index + 3 < run.points.length; index++) {
    const [a, b, c, d] = run.points.slice(index, index + 4);
    if (!a || !b || !c || !d || a.x !== d.x || a.y !== b.y || b.x !== c.x || c.y !== d.y) continue;
    if (a.y === d.y) continue;
    const box = {
      left: Math.min(a.x, b.x) - beside,
      right: Math.max(a.x, b.x) + beside,
      top: Math.min(a.y, d.y) + 1,
      bottom: Math.max(a.y, d.y) - 1,
    };
    if (isTaken(box, run.net, bodies, moves)) continue;
    const points = [...run.points.slice(0, index + 1), ...run.points.slice(index + 3)];
    return goStraight({ ...run, points: cornersOf(points) }, bodies, moves);
  }
  return run;
}

/** Whether anything but wires of a junction stands in a box. */
function isTaken(
  box: Box,
  net: number,
  bodies: readonly Body[],
  moves: readonly number[],
): boolean {
  return bodies.some((body, index) =>
    body.some(
      (block) =>
        !(block.kind === 'wire' && block.net === net) &&
        block.left + (moves[index] ?? 0) < box.right &&
        block.right + (moves[index] ?? 0) > box.left &&
        block.top < box.bottom &&
        block.bottom > box.top,
    ),
  );
}

/** A step to the side this long or shorter, before a wire goes up or down, is taken farther on. */
const shortStep = 30;

/**
 * A run that leaves a cell's own upright wire, steps aside, goes on up or down and then to the same
 * side goes up or down at once and to the side only then, where nothing stands in that corner.
 *
 * @param moves how far each body has been moved to the right
 * @param step the body of the run's first upright piece
 */
export function goOn(
  run: Run,
  bodies: readonly Body[],
  moves: readonly number[],
  step: number | undefined,
): Run {
  const [start, aside, foot, on] = run.points;
  if (!start || !aside || !foot || !on) return run;
  const across = aside.x - start.x;
  const down = foot.y - start.y;
  if (aside.y !== start.y || foot.x !== aside.x || on.y !== foot.y || down === 0) return run;
  if (across === 0 || Math.abs(across) > shortStep) return run;
  if (Math.sign(on.x - foot.x) !== Math.sign(across)) return run;
  if (!comesAlong(run, start, down, bodies[run.from], moves[run.from])) return run;
  const box = {
    left: Math.min(start.x, aside.x) - beside,
    right: Math.max(start.x, aside.x) + beside,
    top: down > 0 ? start.y + 1 : foot.y - beside,
    bottom: down > 0 ? foot.y + beside : start.y - 1,
  };
  const inTheWay = bodies.some(
    (body, index) =>
      index !== step &&
      body.some(
        (block) =>
          !(index === run.to && block.kind === 'wire') &&
          block.left + (moves[index] ?? 0) < box.right &&
          block.right + (moves[index] ?? 0) > box.left &&
          block.top < box.bottom &&
          block.bottom > box.top,
      ),
  );
  if (inTheWay) return run;
  const points: Point[] = [start, { x: start.x, y: foot.y }, ...run.points.slice(3)];
  return { ...run, points: cornersOf(points) };
}

/** Whether the cell's own wire comes up or down to where a run begins, the way that it goes on. */
function comesAlong(
  { net }: Run,
  start: Point,
  down: number,
  body: Body | undefined,
  moved = 0,
): boolean {
  return (body ?? []).some(
    (block) =>
      block.kind === 'wire' &&
      block.net === net &&
      block.left + moved === start.x &&
      block.right + moved === start.x &&
      (down > 0
        ? block.bottom === start.y && block.top < start.y
        : block.top === start.y && block.bottom > start.y),
  );
}
