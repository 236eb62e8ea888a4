import { type Cell, cellBox } from './cell.ts';
import { chainNets } from './chains.ts';

/** A place between two cells where the drawing may go on in a new row. */
interface Break {
  /** Index of the first cell of the new row. */
  readonly at: number;
  /** The junction that crosses; none where a jack alone leads on. */
  readonly net: number | undefined;
}

/** A row: its cells, and the junctions by which the signal comes and goes. */
export interface RowPlan {
  readonly cells: readonly Cell[];
  readonly enters: number | undefined;
  readonly leaves: number | undefined;
}

/** Usable A4 paper in millimetres, long side first. */
const paper = [277, 190] as const;
const mostRows = 4;

/** Breaks only where exactly one signal junction crosses, at the entry to a coil or transformer. */
function possibleBreaks(cells: readonly Cell[]): Break[] {
  const span = new Map<number, { first: number; last: number }>();
  for (const [index, { ports }] of cells.entries()) {
    for (const { net } of ports) {
      const known = span.get(net);
      span.set(net, { first: known?.first ?? index, last: index });
    }
  }
  const breaks: Break[] = [];
  for (const [at, cell] of cells.entries()) {
    if (at === 0 || cell.kind !== 'coil') continue;
    const crossing = [...span].filter(([, { first, last }]) => first < at && last >= at);
    if (crossing.length === 0) breaks.push({ at, net: undefined });
    const [only] = crossing;
    if (crossing.length !== 1 || !only || only[1].last !== at) continue;
    const entry = cell.ports.filter(({ net }) => net === only[0]);
    if (entry.length === 1 && entry[0]?.side === 'west') breaks.push({ at, net: only[0] });
  }
  return breaks;
}

/** How wide cells come to lie when each stands east of all that lead to it. */
function longestPath(cells: readonly Cell[], width: (cell: Cell) => number): number {
  const starts = cells.map(() => 0);
  const links = chainNets(cells).sort((a, b) => a.from.cell - b.from.cell);
  const endOf = (index: number): number => {
    const cell = cells[index];
    return (starts[index] ?? 0) + (cell ? width(cell) : 0);
  };
  for (const { from, to } of links) {
    starts[to.cell] = Math.max(starts[to.cell] ?? 0, endOf(from.cell) + 20);
  }
  return Math.max(0, ...cells.map((_, index) => endOf(index)));
}

/** Splits the signal path into the rows that give the largest letters on a page. */
export function breakRows(cells: readonly Cell[], columns: readonly Cell[]): RowPlan[] {
  const breaks = possibleBreaks(cells);
  const width = (cell: Cell): number => cellBox(cell).right - cellBox(cell).left;
  const known = new Map<string, number>();
  const widthOf = (from: number, to: number): number => {
    const key = `${from} ${to}`;
    const found = known.get(key) ?? longestPath(cells.slice(from, to), width);
    known.set(key, found);
    return found;
  };
  const beyond = columns.reduce((sum, cell) => sum + width(cell) + 10, 140);
  let best: readonly Break[] = [];
  let largest = 0;
  const consider = (chosen: readonly Break[]): void => {
    const edges = [0, ...chosen.map(({ at }) => at), cells.length];
    const amplifies = edges
      .slice(1)
      .every((end, index) => cells.slice(edges[index], end).some(({ kind }) => kind === 'tube'));
    if (chosen.length > 0 && !amplifies) return;
    const rows = edges.slice(1).map((end, index) => {
      const own = widthOf(edges[index] ?? 0, end);
      return own + (index === edges.length - 2 ? beyond : 60);
    });
    const [across, down] = [Math.max(...rows), 350 + rows.length * 300];
    const scale = Math.max(
      Math.min(paper[0] / across, paper[1] / down),
      Math.min(paper[1] / across, paper[0] / down),
    );
    // A further row must be worth it.
    const worth = scale * 0.93 ** chosen.length;
    if (worth > largest * 1.001) {
      largest = worth;
      best = chosen;
    }
  };
  const extend = (chosen: readonly Break[], from: number): void => {
    consider(chosen);
    if (chosen.length === mostRows - 1) return;
    for (let index = from; index < Math.min(breaks.length, 16); index++) {
      const next = breaks[index];
      if (next) extend([...chosen, next], index + 1);
    }
  };
  extend([], 0);
  const edges = [0, ...best.map(({ at }) => at), cells.length];
  return edges.slice(1).map((end, index) => ({
    cells: cells.slice(edges[index], end),
    enters: best[index - 1]?.net,
    leaves: best[index]?.net,
  }));
}
