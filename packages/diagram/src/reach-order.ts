import type { Circuit, Part } from '@setwright/circuit';
import { naturally } from './natural-order.ts';
import type { Rails } from './rails.ts';

interface Link {
  readonly to: number;
  readonly cost: number;
}

/**
 * How far each signal junction is from the aerial along the way the signal takes: grid to plate
 * and winding to winding are one step, a series part two. Junctions that the signal does not
 * reach come last. The numbers are ranks: 0, 1, 2 …
 */
export function reachOrder(circuit: Circuit, rails: Rails): ReadonlyMap<number, number> {
  const links = new Map<number, Link[]>();
  const link = (from: number, to: number, cost: number): void => {
    if (from === to || rails.roleOf(from) === 'low' || rails.roleOf(from) === 'high') return;
    const list = links.get(from);
    if (list) list.push({ to, cost });
    else links.set(from, [{ to, cost }]);
  };
  const net = (part: Part, name: string): number | undefined =>
    part.ends.find((end) => end.name === name)?.junction;
  const plates = new Set(
    circuit.parts.filter(({ kind }) => kind === 'tube').map((tube) => net(tube, 'plate')),
  );
  const isHot = leadsToGrid(circuit);
  const spans = circuit.parts
    .filter(({ kind }) => kind === 'winding')
    .map((winding) => [net(winding, 'start'), net(winding, 'finish')] as const);
  const joins = (a: number | undefined, b: number | undefined, from: number, to: number) =>
    (from === a && to === b) || (from === b && to === a);
  const isAcross = (from: number, to: number): boolean =>
    spans.some(([a, b]) => joins(a, b, from, to));
  for (const part of circuit.parts) {
    const nets = part.ends.map((end) => end.junction);
    if (part.kind === 'tube') {
      const [grid, plate, screen] = [net(part, 'grid'), net(part, 'plate'), net(part, 'screen')];
      const cathode = net(part, 'cathode');
      if (grid === undefined) continue;
      if (cathode !== undefined) link(grid, cathode, 1);
      if (screen !== undefined) link(grid, screen, 1);
      if (plate !== undefined) link(grid, plate, 1);
    } else if (part.kind === 'battery' || part.kind === 'eliminator') {
    } else if (part.kind !== 'coil' && part.kind !== 'transformer') {
      const [start, finish] = [net(part, 'start'), net(part, 'finish')];
      for (const from of nets) {
        for (const to of nets) {
          // From end to end of a winding the signal comes last: its return is not its way.
          const ends = part.ends.length === 2 || part.kind === 'winding';
          const whole = ends && (part.kind !== 'winding' || joins(start, finish, from, to));
          link(from, to, whole && part.kind !== 'loop' && isAcross(from, to) ? 40 : 2);
        }
      }
    }
    for (const contact of part.contacts) {
      const from = circuit.endNamed.get(contact.from)?.junction;
      const to = circuit.endNamed.get(contact.to)?.junction;
      if (from === undefined || to === undefined) continue;
      link(from, to, 1);
      link(to, from, 1);
    }
    if (part.kind !== 'winding') continue;
    for (const other of circuit.parts) {
      if (other.kind !== 'winding' || other.owner !== part.owner || other === part) continue;
      // A winding in a plate lead hands the signal on; it never takes it from its neighbour.
      if (other.ends.some((end) => plates.has(end.junction))) continue;
      const hot = other.ends.filter(({ junction }) => isHot(junction));
      for (const from of nets) {
        for (const end of other.ends) {
          const away =
            hot.length > 0 && !hot.includes(end) && (end.name === 'start' || end.name === 'finish');
          link(from, end.junction, away ? 40 : 1);
        }
      }
    }
  }
  return ranks(circuit, rails, links, isHot);
}

/** Whether a junction is a grid's or a crystal's, or one condenser or resistance away from a grid. */
export function leadsToGrid(circuit: Circuit): (net: number) => boolean {
  const grids = new Set(
    circuit.parts
      .filter(({ kind }) => kind === 'tube')
      .flatMap(({ ends }) => ends.filter(({ name }) => name === 'grid').map((e) => e.junction)),
  );
  const near = new Set(grids);
  for (const { kind, ends } of circuit.parts) {
    if (kind === 'crystal') for (const { junction } of ends) near.add(junction);
    if (kind !== 'condenser' && kind !== 'resistor' && kind !== 'leak') continue;
    const [a, b] = [ends[0]?.junction ?? -1, ends[1]?.junction ?? -1];
    // What tunes a winding does not lead anywhere.
    if (circuit.parts.some((part) => part.kind === 'winding' && spansBoth(part, a, b))) continue;
    if (grids.has(a)) near.add(b);
    if (grids.has(b)) near.add(a);
  }
  return (net) => near.has(net);
}

const spansBoth = (winding: Part, a: number, b: number): boolean =>
  [a, b].every((net) =>
    winding.ends.some(
      ({ name, junction }) => junction === net && (name === 'start' || name === 'finish'),
    ),
  );

function ranks(
  circuit: Circuit,
  rails: Rails,
  links: ReadonlyMap<number, readonly Link[]>,
  isHot: (net: number) => boolean,
): Map<number, number> {
  const distance = new Map<number, number>();
  const names = circuit.junctions.map(({ terminals }) => [...terminals].sort(naturally)[0] ?? '');
  const byName = (a: number, b: number): number => naturally(names[a] ?? '', names[b] ?? '');
  const isNearer = (a: number, b: number): boolean => {
    const by = (distance.get(a) ?? 0) - (distance.get(b) ?? 0);
    return by < 0 || (by === 0 && byName(a, b) < 0);
  };
  const spread = (seeds: readonly number[], offset: number): void => {
    for (const seed of seeds) if (!distance.has(seed)) distance.set(seed, offset);
    const open = new Set(seeds);
    for (let round = 0; open.size > 0 && round < 100_000; round++) {
      let here: number | undefined;
      for (const each of open) if (here === undefined || isNearer(each, here)) here = each;
      if (here === undefined) break;
      open.delete(here);
      for (const { to, cost } of links.get(here) ?? []) {
        const far = (distance.get(here) ?? 0) + cost;
        if (far >= (distance.get(to) ?? Number.POSITIVE_INFINITY)) continue;
        distance.set(to, far);
        open.add(to);
      }
    }
  };
  const isTube = ({ kind }: Part): boolean => kind === 'tube';
  const seedsOf = (wanted: (part: Part) => boolean, name?: string): number[] =>
    circuit.parts
      .filter(wanted)
      .flatMap(({ ends }) => ends.filter((end) => name === undefined || end.name === name))
      .map((end) => end.junction);
  const aerials = seedsOf(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const isSignal = (one: number): boolean => rails.roleOf(one) === 'signal';
  const loops = seedsOf(({ kind }) => kind === 'loop').filter(isSignal);
  const hot = loops.filter(isHot);
  spread(aerials.length > 0 ? aerials : hot.length > 0 ? hot : loops, 0);
  // Of what the aerial does not reach, first whatever no plate drives: grids before their plates.
  const driven = reachableFrom(seedsOf(isTube, 'plate'), links);
  const rest = circuit.junctions
    .map(({ index }) => index)
    .sort((a, b) => Number(driven.has(a)) - Number(driven.has(b)) || byName(a, b));
  for (const index of rest) {
    if (distance.has(index) || !isSignal(index)) continue;
    spread([index], 1 + Math.max(0, ...distance.values()));
  }
  const sorted = [...distance.keys()].sort(
    (a, b) => (distance.get(a) ?? 0) - (distance.get(b) ?? 0) || byName(a, b),
  );
  return new Map(sorted.map((index, rank) => [index, rank]));
}

function reachableFrom(
  seeds: readonly number[],
  links: ReadonlyMap<number, readonly Link[]>,
): ReadonlySet<number> {
  const reached = new Set(seeds);
  for (const here of reached) for (const { to } of links.get(here) ?? []) reached.add(to);
  return reached;
}
