import type { Cell } from '../cell.ts';
import type { Body } from './blocks.ts';
import type { Distance } from './distance.ts';
import type { Run } from './run.ts';

/** So much farther to the right the rest of a row may go to save two bends. */
const smallStep = 20;

/**
 * A run that leaves one cell downwards, steps a little to the right and enters the next from above
 * goes straight down, where the first cell can be moved over without moving the second.
 */
export function straighten(
  bodies: readonly Body[],
  wanted: readonly Distance[],
  moves: number[],
  run: Run,
  owners: readonly number[],
  cells: readonly Cell[],
): void {
  if (cells[run.from]?.kind !== 'winding' || cells[run.to]?.kind !== 'tube') return;
  if (run.points.length === 2) {
    standOver(bodies, wanted, moves, run);
    return;
  }
  const [start, , , end] = run.points;
  const step = owners[1];
  if (run.points.length !== 4 || !start || !end || step === undefined) return;
  const by = end.x + (moves[run.to] ?? 0) - start.x - (moves[run.from] ?? 0);
  if (by <= 0 || by > 60) return;
  const others = wanted.filter(({ before, after }) => before !== step && after !== step);
  const { moved, pushed } = pushedBy(run.from, by, bodies, others, moves);
  // For a small step all that stands farther on may make room; for a larger one no more than parts
  // beside the signal's way.
  const stays = (index: number): boolean =>
    index === run.to ||
    (by > smallStep &&
      (index >= cells.length || ['tube', 'coil'].includes(cells[index]?.kind ?? '')));
  if ([...pushed].some(stays)) return;
  const upright = bodies[step]?.[0];
  const x = end.x + (moves[run.to] ?? 0);
  // The straight piece keeps clear of all that it passes.
  const isNear = upright
    ? bodies.some(
        (body, index) =>
          index !== step &&
          index !== run.to &&
          body.some(
            (block) =>
              // What leaves a winding above must not come down through it.
              !(index === run.from && block.kind === 'wire' && block.net === run.net) &&
              block.top < upright.bottom &&
              block.bottom > upright.top &&
              block.left + (moved[index] ?? 0) < x + 8 &&
              block.right + (moved[index] ?? 0) > x - 8,
          ),
      )
    : true;
  if (isNear) return;
  for (const index of pushed) moves[index] = moved[index] ?? 0;
  moves[step] = x - (upright?.left ?? 0);
}

/** Where everything comes to stand if one thing is moved to the right, and what moves with it. */
function pushedBy(
  index: number,
  by: number,
  bodies: readonly Body[],
  wanted: readonly Distance[],
  moves: readonly number[],
): { readonly moved: readonly number[]; readonly pushed: ReadonlySet<number> } {
  const moved = [...moves];
  moved[index] = (moves[index] ?? 0) + by;
  const pushed = new Set([index]);
  for (let round = 0; round <= bodies.length; round++) {
    let grew = false;
    for (const { before, after, least } of wanted) {
      const needed = (moved[before] ?? 0) + least;
      if (needed <= (moved[after] ?? 0)) continue;
      moved[after] = needed;
      pushed.add(after);
      grew = true;
    }
    if (!grew) break;
  }
  return { moved, pushed };
}

/** A winding whose lead ends beside that of the plate below it is moved to stand over the plate. */
function standOver(
  bodies: readonly Body[],
  wanted: readonly Distance[],
  moves: number[],
  { from, to, points: [start, end] }: Run,
): void {
  if (!start || !end || start.y !== end.y) return;
  const by = end.x + (moves[to] ?? 0) - start.x - (moves[from] ?? 0);
  if (by <= 0 || by > smallStep) return;
  // The two are to meet; of all else between them nothing may.
  const others = wanted.filter(({ before, after }) => before !== from || after !== to);
  const { moved, pushed } = pushedBy(from, by, bodies, others, moves);
  if (pushed.has(to)) return;
  const meets = (bodies[from] ?? []).some((a) =>
    (bodies[to] ?? []).some(
      (b) =>
        !(a.kind === 'wire' && b.kind === 'wire' && a.net === b.net) &&
        a.left + (moved[from] ?? 0) < b.right + (moved[to] ?? 0) + 6 &&
        b.left + (moved[to] ?? 0) < a.right + (moved[from] ?? 0) + 6 &&
        a.top < b.bottom + 4 &&
        b.top < a.bottom + 4,
    ),
  );
  if (meets) return;
  for (const index of pushed) moves[index] = moved[index] ?? 0;
}
