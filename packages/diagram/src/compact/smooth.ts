import type { Box, Point } from '../scene.ts';
import type { Body } from './blocks.ts';
import { cornersOf, type Run, turned } from './run.ts';

/** Clear paper to either side of a wire that is made straight. */
const beside = 7;

/**
 * A run without needless steps, seen from either end.
 *
 * @param moves how far each body has been moved to the right
 * @param steps the bodies of the run's first and last upright pieces
 * @param meets whether another run begins where this one does
 */
export function smooth(
  run: Run,
  bodies: readonly Body[],
  moves: readonly number[],
  [first, last]: readonly [number | undefined, number | undefined],
  meets: (run: Run) => boolean,
): Run {
  // A straight run has no steps.
  if (run.points.length < 3) return run;
  const isMet = (): boolean => meets(run);
  const ahead = goOn(unhook(run, bodies, moves), bodies, moves, first, isMet);
  const isMetBehind = (): boolean => meets(turned(run));
  const back = goOn(unhook(turned(ahead), bodies, moves), bodies, moves, last, isMetBehind);
  return goStraight(turned(back), bodies, moves);
}

/**
 * A run that goes on the way that its cell's own wire comes, and then turns back past it, leaves
 * that wire where it turns back to, where nothing stands between. What is left of the cell's wire
 * leads nowhere, and is trimmed.
 */
function unhook(run: Run, bodies: readonly Body[], moves: readonly number[]): Run {
  const [start, aside, foot, on] = run.points;
  if (!start || !aside || !foot || aside.y !== start.y || foot.x !== aside.x) return run;
  const isClear = (a: Point, b: Point): boolean =>
    !isTaken(
      {
        left: Math.min(a.x, b.x) - beside,
        right: Math.max(a.x, b.x) + beside,
        top: Math.min(a.y, b.y) - (a.y === b.y ? beside : -1),
        bottom: Math.max(a.y, b.y) + (a.y === b.y ? beside : -1),
      },
      run.net,
      bodies,
      moves,
    );
  for (const end of ownPieces(run, start, bodies, moves)) {
    if (end.x === start.x) {
      // Up or down too far, and back again.
      const between = (foot.y - end.y) * (foot.y - start.y) <= 0 && foot.y !== start.y;
      const from = { x: start.x, y: foot.y };
      if (!between || !isClear(from, foot)) continue;
      return { ...run, points: cornersOf([from, ...run.points.slice(2)]) };
    }
    // Aside too far, and back again at another height.
    if (!on || on.y !== foot.y || (aside.x - start.x) * (start.x - end.x) <= 0) continue;
    const isPast = (on.x - end.x) * (start.x - end.x) < 0;
    const isBack = (on.x - start.x) * (start.x - end.x) < 0;
    const x = isPast ? end.x : on.x;
    const [from, to] = [
      { x, y: start.y },
      { x, y: foot.y },
    ];
    if (!isBack || !isClear(from, to)) continue;
    return { ...run, points: cornersOf([from, to, ...run.points.slice(3)]) };
  }
  return run;
}

/** The far ends of the pieces of the cell's own wire that end where a run begins. */
function ownPieces(
  { net, from }: Run,
  start: Point,
  bodies: readonly Body[],
  moves: readonly number[],
): Point[] {
  const moved = moves[from] ?? 0;
  return (bodies[from] ?? []).flatMap((block): Point[] => {
    if (block.kind !== 'wire' || block.net !== net) return [];
    const [left, right] = [block.left + moved, block.right + moved];
    if (left === right && left === start.x) {
      if (block.bottom === start.y && block.top < start.y) return [{ x: left, y: block.top }];
      if (block.top === start.y && block.bottom > start.y) return [{ x: left, y: block.bottom }];
    }
    if (block.top === block.bottom && block.top === start.y) {
      if (right === start.x && left < start.x) return [{ x: left, y: start.y }];
      if (left === start.x && right > start.x) return [{ x: right, y: start.y }];
    }
    return [];
  });
}

/**
 * A run that steps aside and comes back to where it stood goes straight down, where nothing stands
 * between.
 */
function goStraight(run: Run, bodies: readonly Body[], moves: readonly number[]): Run {
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
 * A run that leaves a cell's own upright wire, steps aside and goes on up or down goes up or down at
 * once and to the side only then, where nothing stands in that corner.
 *
 * @param moves how far each body has been moved to the right
 * @param step the body of the run's first upright piece
 * @param isMet whether another run begins where this one does
 */
function goOn(
  run: Run,
  bodies: readonly Body[],
  moves: readonly number[],
  step: number | undefined,
  isMet: () => boolean,
): Run {
  const [start, aside, foot, on] = run.points;
  if (!start || !aside || !foot || !on) return run;
  const across = aside.x - start.x;
  const down = foot.y - start.y;
  if (aside.y !== start.y || foot.x !== aside.x || on.y !== foot.y || down === 0) return run;
  if (across === 0 || Math.abs(across) > shortStep) return run;
  if (!comesAlong(run, start, down, bodies[run.from], moves[run.from])) return run;
  // Wires do not meet four ways.
  const isLevel = ({ y }: Point): boolean => y === start.y;
  if (ownPieces(run, start, bodies, moves).some(isLevel) && isMet()) return run;
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
