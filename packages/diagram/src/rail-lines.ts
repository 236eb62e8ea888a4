import type { Riser } from './bus-lines.ts';
import type { Cell } from './cell.ts';
import type { Rails } from './rails.ts';

/** Rails that are drawn as lines in one row, from the cells outwards. */
export interface RowLines {
  readonly upper: readonly number[];
  readonly lower: readonly number[];
}

/**
 * Which rails become lines in a row, from cells that lead every rail out: those that two or more
 * of its parts use. The last row's B supplies go out to their terminals, however few use them.
 */
export function chooseRowLines(
  cells: readonly Cell[],
  columns: readonly Cell[],
  rails: Rails,
  isLast: boolean,
): RowLines {
  const uses = new Map<string, number>();
  for (const cell of [...cells, ...columns]) {
    for (const { net, up } of cell.drops) {
      // A column beside a row that goes on has symbols below: its line would cross the way on.
      if (!up && !isLast && columns.includes(cell)) continue;
      const key = `${net} ${up}`;
      uses.set(key, (uses.get(key) ?? 0) + 1);
    }
  }
  const used = (up: boolean, role: string, least: number): number[] =>
    [...uses]
      .filter(([key, count]) => key.endsWith(` ${up}`) && count >= least)
      .map(([key, count]) => ({ net: Number.parseInt(key, 10), count }))
      .filter(({ net }) => rails.roleOf(net) === role)
      .sort((a, b) => b.count - a.count)
      .map(({ net }) => net);
  return {
    upper: used(true, 'high', isLast ? 1 : 2),
    lower: used(false, 'low', 2).slice(0, isLast ? 3 : 2),
  };
}

/**
 * The lines of one side of a row, from the cells outwards, in the order in which fewest risers
 * cross a line; of several such orders the one that is nearest to the given.
 */
export function leastCrossed(
  nets: readonly number[],
  risers: readonly Pick<Riser, 'net' | 'from'>[],
  endOf: (net: number) => number,
): number[] {
  const xs = new Map(
    nets.map((net) => [net, risers.filter((riser) => riser.net === net).map(({ from }) => from.x)]),
  );
  /** How many risers of the outer line cross the inner one. */
  const crossed = (outer: number, inner: number): number => {
    const span = xs.get(inner) ?? [];
    const [left, right] = [Math.min(...span), Math.max(endOf(inner), ...span)];
    return (xs.get(outer) ?? []).filter((x) => x > left - 4 && x < right + 4).length;
  };
  let best = [...nets];
  let fewest = Number.POSITIVE_INFINITY;
  const extend = (chosen: readonly number[], rest: readonly number[], count: number): void => {
    if (count >= fewest) return;
    if (rest.length === 0) {
      best = [...chosen];
      fewest = count;
      return;
    }
    for (const next of rest) {
      const more = chosen.reduce((sum, inner) => sum + crossed(next, inner), 0);
      extend(
        [...chosen, next],
        rest.filter((net) => net !== next),
        count + more,
      );
    }
  };
  // More lines than any set has; the search would take too long.
  if (nets.length > 7) return best;
  extend([], nets, 0);
  return best;
}
