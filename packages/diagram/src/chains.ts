import type { Cell, CellPort } from './cell.ts';

/** One edge of the layout, from a port of one cell to a port of a later one. */
export interface ChainLink {
  readonly net: number;
  readonly from: { readonly cell: number; readonly port: number };
  readonly to: { readonly cell: number; readonly port: number };
}

interface Stop {
  readonly cell: number;
  readonly west: number | undefined;
  readonly east: number | undefined;
}

/**
 * Each junction as a chain along the signal path: from where it is driven through what hangs from
 * it to where it ends. Links always run from an earlier cell to a later one, so that the layout
 * has no cycles to break.
 */
export function chainNets(cells: readonly Cell[]): ChainLink[] {
  const stopsOf = new Map<number, Map<number, CellPort[]>>();
  for (const [index, cell] of cells.entries()) {
    for (const port of cell.ports) {
      const stops = stopsOf.get(port.net) ?? new Map<number, CellPort[]>();
      stopsOf.set(port.net, stops);
      const list = stops.get(index);
      if (list) list.push(port);
      else stops.set(index, [port]);
    }
  }
  const links: ChainLink[] = [];
  const nets = [...stopsOf].sort(
    ([, a], [, b]) => Math.min(...a.keys()) - Math.min(...b.keys()) || firstPort(a) - firstPort(b),
  );
  for (const [net, byCell] of nets) {
    const stops = [...byCell.keys()].sort((a, b) => a - b).map((cell) => stopAt(cells, net, cell));
    links.push(...chain(net, stops));
  }
  return links;

  function firstPort(stops: ReadonlyMap<number, readonly CellPort[]>): number {
    const index = Math.min(...stops.keys());
    const port = stops.get(index)?.[0];
    return port ? (cells[index]?.ports.indexOf(port) ?? 0) : 0;
  }
}

function stopAt(cells: readonly Cell[], net: number, cell: number): Stop {
  const ports = cells[cell]?.ports ?? [];
  const find = (side: string): number | undefined => {
    const index = ports.findIndex((port) => port.net === net && port.side === side);
    return index < 0 ? undefined : index;
  };
  return { cell, west: find('west'), east: find('east') };
}

function chain(net: number, stops: readonly Stop[]): ChainLink[] {
  const [driver, ...rest] = stops;
  if (!driver) return [];
  const links: ChainLink[] = [];
  let at = { cell: driver.cell, port: driver.east ?? driver.west ?? 0 };
  const through = rest.filter(({ west, east }) => west !== undefined && east !== undefined);
  const last = rest.filter((stop) => !through.includes(stop));
  for (const stop of through) {
    links.push({ net, from: at, to: { cell: stop.cell, port: stop.west ?? 0 } });
    at = { cell: stop.cell, port: stop.east ?? 0 };
  }
  for (const stop of last) {
    const to = { cell: stop.cell, port: stop.west ?? stop.east ?? 0 };
    const forward = at.cell < stop.cell;
    links.push(forward ? { net, from: at, to } : { net, from: to, to: at });
  }
  return links;
}
