import type { Cell } from '../cell.ts';
import type { Body } from './blocks.ts';
import type { Distance } from './distance.ts';
import type { Run } from './run.ts';

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
  const [start, , , end] = run.points;
  const step = owners[1];
  if (run.points.length !== 4 || !start || !end || step === undefined) return;
  if (cells[run.from]?.kind !== 'winding' || cells[run.to]?.kind !== 'tube') return;
  const by = end.x + (moves[run.to] ?? 0) - start.x - (moves[run.from] ?? 0);
  if (by <= 0 || by > 60) return;
  const moved = [...moves];
  moved[run.from] = (moves[run.from] ?? 0) + by;
  const pushed = new Set([run.from]);
  const others = wanted.filter(({ before, after }) => before !== step && after !== step);
  for (let round = 0; round <= bodies.length; round++) {
    let grew = false;
    for (const { before, after, least } of others) {
      const needed = (moved[before] ?? 0) + least;
      if (needed <= (moved[after] ?? 0)) continue;
      moved[after] = needed;
      pushed.add(after);
      grew = true;
    }
    if (!grew) break;
  }
  const isPath = (index: number): boolean =>
    index === run.to || ['tube', 'coil'].includes(cells[index]?.kind ?? '');
  if ([...pushed].some((index) => isPath(index) || index >= cells.length)) return;
  const upright = bodies[step]?.[0];
  const x = end.x + (moves[run.to] ?? 0);
  // The straight piece keeps clear of all that it passes.
  const isNear = upright
    ? bodies.some(
        (body, index) =>
          index !== step &&
          index !== run.from &&
          index !== run.to &&
          body.some(
            (block) =>
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
