import type { Circuit, End, Part } from '@setwright/circuit';
import { type Cell, endOf, type Paper } from './cell.ts';
import { type CoilContext, loneWindingCell, pairCell } from './cells/coil.ts';
import { genericCell, looseCell, potentiometerCell, shieldCell } from './cells/generic.ts';
import { aerialCell, postCell } from './cells/posts.ts';
import { type Hanging, tubeCell } from './cells/tube.ts';
import { columnCell, seriesCell, shuntCell } from './cells/two-ended.ts';
import { naturally } from './natural-order.ts';
import { twoEndedSymbol } from './part-words.ts';
import { isSupply, type Rails } from './rails.ts';
import { leadsToGrid } from './reach-order.ts';

/** The set taken apart into cells, before anything has its place. */
export interface Plan {
  /** Cells of the signal path, in signal order. */
  readonly cells: readonly Cell[];
  /** Parts between rails. */
  readonly columns: readonly Cell[];
  /** Parts that nothing is joined to. */
  readonly tray: readonly Cell[];
  /** Cells that a jack or selector joins in one of its positions: the second follows the first. */
  readonly follows: readonly (readonly [Cell, Cell])[];
  /** Posts and buses on rails, which the terminal block shows. */
  readonly railPosts: readonly Part[];
}

const isTwoEnded = (part: Part): boolean => part.ends.length === 2 && !isSupply(part);

const soundMakers = new Set(['phones', 'horn', 'speaker']);

/** Sorts the parts by their role and draws each group's cell. Never throws. */
export function planCells(
  circuit: Circuit,
  rails: Rails,
  order: ReadonlyMap<number, number>,
  paper: Paper,
): Plan {
  const parts = [...circuit.parts].sort((a, b) => naturally(a.name, b.name));
  const rank = (net: number): number => order.get(net) ?? 1e6;
  const having = (name: string): Set<number> =>
    new Set(
      parts
        .filter(({ kind }) => kind === 'tube')
        .flatMap((tube) => endOf(tube, name)?.junction ?? []),
    );
  const [plates, grids] = [having('plate'), having('grid')];
  const holders = new Map(
    parts.flatMap(({ name, contacts }) =>
      contacts.flatMap(({ from, to }) => [from, to].map((id) => [id, name] as const)),
    ),
  );
  const cx: CoilContext = {
    paper,
    rails,
    rank,
    level: (net) => (plates.has(net) ? -40 : 0),
    onGrid: (net) => grids.has(net),
    onPlate: (net) => plates.has(net),
    nearGrid: leadsToGrid(circuit),
    heldBy: (end) => holders.get(end.id),
  };
  const used = new Set<string>(rails.stripParts);
  const cells: Cell[] = [];
  const columns: Cell[] = [];
  const tray: Cell[] = [];
  const railPosts: Part[] = [];
  const role = (end: End | undefined) => (end ? rails.roleOf(end.junction) : 'alone');
  const isAlone = (end: End): boolean => role(end) === 'alone';
  const contacted = new Set(
    parts.flatMap(({ contacts }) => contacts.flatMap(({ from, to }) => [from, to])),
  );
  const posts = parts.filter(({ kind }) => kind === 'post' || kind === 'bus');
  const add = (cell: Cell, nets: readonly number[], later = 0): void => {
    // What hangs from a junction comes before what it leads to.
    const hangs = cell.ports.some(({ net, side }) =>
      cell.ports.some((other) => other.net === net && other.side !== side),
    );
    cell.key = Math.min(...nets.map(rank)) + (hangs ? 0.1 : later);
    cells.push(cell);
  };
  const signals = (part: Part): number[] =>
    part.ends.map((end) => end.junction).filter((net) => rails.roleOf(net) === 'signal');

  for (const part of parts) {
    if (used.has(part.name) || isSupply(part)) continue;
    if (part.kind === 'coil' || part.kind === 'transformer') used.add(part.name);
    else if (
      part.kind !== 'winding' &&
      part.kind !== 'tube' &&
      part.ends.every((end) => role(end) === 'alone' && !contacted.has(end.id))
    ) {
      used.add(part.name);
      tray.push(looseCell(part));
    }
  }

  planCoils();
  planTubes();
  planTwoEnded();
  planRest();
  cells.sort((a, b) => a.key - b.key || naturally(a.id, b.id));
  return { cells, columns, tray, railPosts, follows: followers() };

  /** The jack or selector that a part is joined to by its contacts alone. */
  function holderOf(part: Part): string | undefined {
    return part.ends
      .map(({ id }) => holders.get(id))
      .find((name) => name !== undefined && name !== part.name);
  }

  /** A jack before the part that it leads through, a selector before its coil. */
  function followers(): [Cell, Cell][] {
    const cellOf = new Map<string, Cell>();
    for (const cell of cells) for (const { part } of cell.symbols) cellOf.set(part, cell);
    const pairs: [Cell, Cell][] = [];
    for (const part of parts) {
      const from = cellOf.get(part.name);
      for (const { from: a, to: b } of part.contacts) {
        for (const id of [a, b]) {
          const to = cellOf.get(circuit.partOfEnd.get(id)?.name ?? '');
          if (!from || !to || from === to || pairs.some(([x, y]) => x === from && y === to))
            continue;
          pairs.push([from, to]);
        }
      }
    }
    return pairs;
  }

  /** Parts across two junctions, for standing beside a winding. */
  function across(winding: Part): Part[] {
    const [a, b] = [endOf(winding, 'start')?.junction, endOf(winding, 'finish')?.junction];
    if (a === undefined || b === undefined || a === b) return [];
    const found = parts.filter((part) => {
      if (used.has(part.name) || !isTwoEnded(part) || part.kind === 'winding') return false;
      if (part.kind === 'loop' || twoEndedSymbol(part) === 'boxed') return false;
      const [one, other] = part.ends.map((end) => end.junction);
      return (one === a && other === b) || (one === b && other === a);
    });
    for (const part of found) used.add(part.name);
    return found;
  }

  function planCoils(): void {
    const owners = new Map<string, Part[]>();
    for (const part of parts) {
      if (part.kind === 'loop' && !used.has(part.name)) {
        used.add(part.name);
        const beside = across(part);
        add(loneWindingCell(cx, part, beside), signals(part));
      }
      if (part.kind !== 'winding') continue;
      const list = owners.get(part.owner ?? '');
      if (list) list.push(part);
      else owners.set(part.owner ?? '', [part]);
    }
    for (const [name, windings] of owners) planCoil(circuit.partNamed.get(name), windings);
  }

  function planCoil(owner: Part | undefined, windings: readonly Part[]): void {
    const reached = (part: Part): number =>
      Math.min(
        ...part.ends.map((end) =>
          role(end) === 'signal' || contacted.has(end.id) ? rank(end.junction) : 1e6,
        ),
      );
    const fed = (part: Part): boolean => part.ends.some((end) => plates.has(end.junction));
    const sorted = [...windings].sort(
      (a, b) => reached(a) - reached(b) || naturally(a.name, b.name),
    );
    // Of two windings the one in a plate lead drives the other.
    const driven = sorted.filter(
      (each) => fed(each) || each.ends.some((end) => role(end) === 'high'),
    );
    if (sorted.length === 2 && driven.length === 1 && driven[0] === sorted[1]) sorted.reverse();
    const [primary] = sorted;
    const secondary = sorted.slice(1).find((each) => !fed(each));
    for (const each of sorted) used.add(each.name);
    let lead = 1e6;
    if (owner && primary && secondary) {
      const selector = parts.find(
        (part) =>
          part.kind === 'selector' &&
          !used.has(part.name) &&
          part.contacts.length > 0 &&
          part.contacts.every(({ from, to }) =>
            primary.ends.some(({ id }) => id === from || id === to),
          ),
      );
      if (selector) used.add(selector.name);
      const cell = pairCell(cx, owner, primary, secondary, across(secondary), selector);
      const own = [primary, secondary, ...(selector ? [selector] : [])].flatMap(signals);
      add(cell, own, 0.4);
      lead = cell.key;
    }
    for (const each of sorted) {
      if (owner && secondary && (each === primary || each === secondary)) continue;
      const cell = loneWindingCell(cx, each, across(each));
      add(cell, signals(each));
      // A tickler belongs near the coil that it works on.
      if (lead < 1e6) cell.key = lead + 0.01;
    }
  }

  function planTubes(): void {
    for (const tube of parts) {
      if (tube.kind !== 'tube') continue;
      used.add(tube.name);
      const cathode = endOf(tube, 'cathode');
      const hanging = cathode && role(cathode) === 'signal' ? hangingFrom(cathode) : [];
      for (const { part } of hanging) used.add(part.name);
      const cell = tubeCell(paper, rails, tube, hanging);
      const grid = endOf(tube, 'grid');
      add(cell, grid && role(grid) === 'signal' ? [grid.junction] : signals(tube), 0.5);
    }
  }

  /** All that hangs from a junction, where nothing but it and rails are concerned. */
  function hangingFrom(end: End): Hanging[] {
    const ids = circuit.junctions[end.junction]?.terminals ?? [];
    const found: Hanging[] = [];
    for (const id of ids) {
      if (id === end.id) continue;
      const part = circuit.partOfEnd.get(id);
      if (!part || !isTwoEnded(part) || used.has(part.name) || part.kind === 'winding') return [];
      const upper = part.ends.find((one) => one.id === id);
      const lower = part.ends.find((one) => one.id !== id);
      if (!upper || !lower || (role(lower) !== 'low' && role(lower) !== 'high')) return [];
      found.push({ part, upper: upper.name, lower: lower.name });
    }
    return found;
  }

  function planTwoEnded(): void {
    for (const part of parts) {
      if (used.has(part.name) || !isTwoEnded(part)) continue;
      const [one, other] = part.ends;
      if (!one || !other || (role(one) === 'alone' && role(other) === 'alone')) continue;
      used.add(part.name);
      const [signal, rail] = role(one) === 'signal' ? [one, other] : [other, one];
      if (role(one) === 'signal' && role(other) === 'signal' && one.junction !== other.junction) {
        planSeries(part, one, other);
      } else if (role(signal) === 'signal' && role(rail) !== 'signal') {
        const ownPosts = soundMakers.has(part.kind)
          ? { signal: postsOn(signal.junction), rail: postsOn(rail.junction) }
          : { signal: [], rail: [] };
        const up = role(rail) === 'high';
        const level = cx.level(signal.junction);
        add(shuntCell(paper, part, signal, rail, level, up, ownPosts, isAlone), [signal.junction]);
      } else if (role(signal) === 'signal') {
        // Both ends on one junction: shorted by the wiring.
        add(genericCell(paper, rails, part), [signal.junction]);
      } else {
        const [upper, lower] =
          role(one) === 'high' || role(other) === 'low' ? [one, other] : [other, one];
        const [top, bottom] =
          role(other) === 'high' && role(one) !== 'high' ? [lower, upper] : [upper, lower];
        columns.push(columnCell(paper, part, top, bottom, isAlone));
      }
    }
  }

  /** The posts on a junction that stand in the lead of what they are for. */
  function postsOn(net: number): string[] {
    const found = posts.filter(
      ({ name, kind, words, ends }) =>
        kind === 'post' &&
        !used.has(name) &&
        (words.has('speaker') || words.has('phones')) &&
        ends[0]?.junction === net,
    );
    for (const { name } of found) used.add(name);
    return found.map(({ name }) => name);
  }

  function planSeries(part: Part, one: End, other: End): void {
    const [from, to] =
      rank(one.junction) <= rank(other.junction)
        ? [one.junction, other.junction]
        : [other.junction, one.junction];
    const twins = parts.filter((each) => {
      if (each === part || used.has(each.name) || !isTwoEnded(each)) return false;
      const [a, b] = each.ends.map((end) => end.junction);
      return (a === from && b === to) || (a === to && b === from);
    });
    for (const twin of twins) used.add(twin.name);
    const group = [part, ...twins];
    const high = cx.level(from);
    const jump = group.length === 1 ? cx.level(to) : high;
    add(seriesCell(group, from, to, high, jump), [from, to], 0.3);
  }

  function planRest(): void {
    for (const part of parts) {
      if (used.has(part.name) || isSupply(part)) continue;
      used.add(part.name);
      if (part.kind === 'post' || part.kind === 'bus') {
        const net = part.ends[0]?.junction;
        if (net === undefined) continue;
        if (rails.roleOf(net) !== 'signal') railPosts.push(part);
        else if (part.words.has('aerial')) add(aerialCell(part), [net]);
        else add(postCell(part, cx.level(net)), [net]);
        continue;
      }
      const cell =
        part.kind === 'potentiometer'
          ? potentiometerCell(paper, rails, part)
          : part.kind === 'shield'
            ? shieldCell(paper, part)
            : part.ends.every((end) => role(end) === 'alone')
              ? looseCell(part, holderOf(part))
              : genericCell(paper, rails, part);
      if (signals(part).length > 0) add(cell, signals(part));
      else columns.push(cell);
    }
  }
}
