import type { Cell, CellPort } from '../cell.ts';
import { liesOn } from '../read-geometry.ts';
import type { Point } from '../scene.ts';

/** Cells without some of their ways out, by the cell and the places of those among all of them. */
export type Closed = Map<Cell, Map<string, Cell>>;

/**
 * The cells without the ways out that lead to no other cell, and without what wire in the cell led
 * to nothing but them. A junction may be all in one cell: a winding and the condenser across it.
 *
 * @param closed what was made before, to which is added: the same cell gives the very same again
 */
export function withoutLonelyPorts(cells: readonly Cell[], closed: Closed): Cell[] {
  const holders = new Map<number, Set<Cell>>();
  for (const cell of cells) {
    for (const { net } of cell.ports) {
      const own = holders.get(net) ?? new Set();
      holders.set(net, own.add(cell));
    }
  }
  return cells.map((cell) => {
    const lonely = cell.ports.filter(({ net }) => (holders.get(net)?.size ?? 0) < 2);
    if (lonely.length === 0) return cell;
    const ways = closed.get(cell) ?? new Map<string, Cell>();
    closed.set(cell, ways);
    const key = lonely.map((port) => cell.ports.indexOf(port)).join();
    const made = ways.get(key) ?? close(cell, lonely);
    ways.set(key, made);
    made.key = cell.key;
    return made;
  });
}

function close(cell: Cell, lonely: readonly CellPort[]): Cell {
  const made = {
    ...cell,
    ports: [...cell.ports],
    wires: cell.wires.map(({ net, points }) => ({ net, points: [...points] })),
  };
  for (const port of lonely) {
    made.ports.splice(made.ports.indexOf(port), 1);
    shorten(made, port.net, port.from);
  }
  return made;
}

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;

/** Takes back a wire from a point where it ends in the air to the first thing that it meets. */
function shorten(cell: Cell, net: number, end: Point): void {
  let at = end;
  for (let step = 0; step < 20; step++) {
    const fixed = [
      ...cell.symbols.flatMap(({ pins }) => pins.map((pin) => pin.at)),
      ...cell.marks.map((mark) => mark.at),
      ...cell.drops.map((drop) => drop.at),
      ...cell.ports.filter((port) => port.net === net).map((port) => port.from),
    ];
    if (fixed.some((point) => same(point, at))) return;
    const own = cell.wires.filter((wire) => wire.net === net);
    const ending = own.filter(({ points }) => isEnd(points, at));
    const [wire] = ending;
    if (ending.length !== 1 || !wire) return;
    const isJoined = own.some((other) => other !== wire && touches(other.points, at));
    if (isJoined) return;
    if (same(wire.points[0] ?? at, at)) wire.points.reverse();
    const last = wire.points.at(-2);
    if (!last) return;
    const met = [...fixed, ...own.filter((other) => other !== wire).flatMap((each) => each.points)]
      .filter((point) => liesOn(point, last, at))
      .sort((a, b) => distance(a, at) - distance(b, at))[0];
    wire.points.pop();
    if (met && !same(met, last)) {
      wire.points.push(met);
      return;
    }
    if (wire.points.length < 2) cell.wires.splice(cell.wires.indexOf(wire), 1);
    at = last;
  }
}

const distance = (a: Point, b: Point): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);

const isEnd = (points: readonly Point[], at: Point): boolean =>
  [points[0], points.at(-1)].some((point) => point !== undefined && same(point, at));

const touches = (points: readonly Point[], at: Point): boolean =>
  points.slice(1).some((to, index) => liesOn(at, points[index] ?? to, to));
