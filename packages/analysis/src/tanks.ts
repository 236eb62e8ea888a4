import type { Circuit, Part, Settings } from '@setwright/circuit';
import { type Capacity, capacitiesOf } from './capacities.ts';
import {
  type InductiveEdge,
  inductiveEdges,
  inductivePath,
  type PathStep,
} from './inductive-paths.ts';
import { type RadioGroups, radioGroups } from './radio-groups.ts';
import { type SurroundingsAt, surroundingsAt } from './surroundings.ts';

/** A winding, or several in series, with a condenser that closes the circuit over it. */
export interface Tank {
  /** From `high` to `low`. */
  readonly path: readonly PathStep[];
  readonly high: number;
  /** The side at rest, where one is. */
  readonly low: number;
  /** Condensers found across it, those that tune first, then the larger. */
  readonly across: readonly Capacity[];
  /** Resistances that stand inside the circuit, in series. */
  readonly inside: readonly Part[];
}

/** A set's tuned circuits before any number is reckoned, with what they were found in. */
export interface Tanks {
  readonly points: RadioGroups;
  readonly edges: readonly InductiveEdge[];
  readonly capacities: readonly Capacity[];
  readonly at: SurroundingsAt;
  readonly tanks: readonly Tank[];
}

/** Ohms up to which a resistance beside a grid or in a tuned circuit lets radio current pass. */
const SMALL_OHMS = 5000;

/** Finds every tuned circuit of a set whose controls stand in one way. Never throws. */
export function findTanks(circuit: Circuit, settings: Settings): Tanks {
  const points = radioGroups(circuit, settings);
  const edges = inductiveEdges(circuit, points).filter(({ from, to }) => from !== to);
  const capacities = capacitiesOf(circuit, points);
  const at = new Map<number, InductiveEdge[]>();
  for (const edge of edges) for (const point of [edge.from, edge.to]) list(at, point).push(edge);
  const ways = seriesWays(circuit, points, capacities);
  const found = new Map<string, Found>();
  for (const capacity of capacities) {
    if (capacity.what !== 'condenser' || capacity.part.words.has('neutralizing')) continue;
    const tank = closedBy(capacity, at, ways, points.ground);
    if (!tank) continue;
    const key = [tank.high, tank.low].sort((a, b) => a - b).join(' ');
    const known = found.get(key);
    if (known) known.across.push(capacity);
    else found.set(key, tank);
  }
  const tanks = [...found.values()].map((tank) => ({
    ...tank,
    across: tank.across.sort(
      (a, b) =>
        Number(b.range !== undefined) - Number(a.range !== undefined) ||
        (b.range?.[1] ?? b.now) - (a.range?.[1] ?? a.now),
    ),
  }));
  const around = surroundingsAt(circuit, points, edges, capacities, SMALL_OHMS);
  return { points, edges, capacities, at: around, tanks };
}

interface Found extends Tank {
  readonly across: Capacity[];
}

/** A small condenser, an aerial or a resistance that leads on in series. */
interface Way {
  readonly to: number;
  readonly part: Part;
}

function closedBy(
  capacity: Capacity,
  at: ReadonlyMap<number, readonly InductiveEdge[]>,
  ways: ReadonlyMap<number, readonly Way[]>,
  rest: number | undefined,
): Found | undefined {
  const { from, to } = capacity;
  const straight = inductivePath(at, from, to, rest);
  if (straight) return tankOf(straight, from, to, rest, capacity, []);
  // Only what is there to tune is looked for behind something in series with it.
  if (!capacity.range) return undefined;
  for (const [near, far] of [
    [from, to],
    [to, from],
  ] as const) {
    for (const way of ways.get(near) ?? []) {
      if (way.part === capacity.part || way.to === far) continue;
      const path = inductivePath(at, way.to, far, rest);
      if (path) return tankOf(path, way.to, far, rest, capacity, [way.part]);
    }
  }
  return undefined;
}

function tankOf(
  path: readonly PathStep[],
  from: number,
  to: number,
  rest: number | undefined,
  capacity: Capacity,
  series: readonly Part[],
): Found {
  const inside = series.filter(({ kind }) => kind === 'resistor' || kind === 'rheostat');
  if (from !== rest) return { path, high: from, low: to, across: [capacity], inside };
  const back = [...path].reverse().map(({ edge, sign }): PathStep => {
    return { edge, sign: sign === 1 ? -1 : 1 };
  });
  return { path: back, high: to, low: from, across: [capacity], inside };
}

function seriesWays(
  circuit: Circuit,
  points: RadioGroups,
  capacities: readonly Capacity[],
): ReadonlyMap<number, readonly Way[]> {
  const ways = new Map<number, Way[]>();
  const add = (from: number, to: number, part: Part): void => {
    if (from === to) return;
    list(ways, from).push({ to, part });
    list(ways, to).push({ to: from, part });
  };
  for (const part of circuit.parts) {
    const ohms = part.values.resistance?.value;
    const [first, second] = part.ends;
    const isSmall = ohms !== undefined && ohms <= SMALL_OHMS;
    if ((part.kind === 'resistor' || part.kind === 'rheostat') && isSmall && first && second)
      add(points.of(first.junction), points.of(second.junction), part);
  }
  for (const { part, what, from, to, range } of capacities)
    if (what === 'aerial' || (what === 'condenser' && !range && !part.words.has('neutralizing')))
      add(from, to, part);
  return ways;
}

function list<T>(map: Map<number, T[]>, key: number): T[] {
  const known = map.get(key) ?? [];
  map.set(key, known);
  return known;
}
