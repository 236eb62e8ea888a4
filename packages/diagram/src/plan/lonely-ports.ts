import type { Cell } from '../cell.ts';
import { liesOn } from '../read-geometry.ts';
import type { Point } from '../scene.ts';

/**
 * Takes away the ways out of cells that lead to no other cell, and what wire in the cell led to
 * nothing but them. A junction may be all in one cell: a winding and the condenser across it.
 */
export function closeLonelyPorts(cells: readonly Cell[]): void {
  const holders = new Map<number, Set<Cell>>();
  for (const cell of cells) {
    for (const { net } of cell.ports) {
      const own = holders.get(net) ?? new Set();
      holders.set(net, own.add(cell));
    }
  }
  for (const cell of cells) {
    const lonely = cell.ports.filter(({ net }) => (holders.get(net)?.size ?? 0) < 2);
    for (const port of lonely) {
      cell.ports.splice(cell.ports.indexOf(port), 1);
      shorten(cell, port.net, port.from);
    }
  }
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
