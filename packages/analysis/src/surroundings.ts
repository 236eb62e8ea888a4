import type { Circuit, Part } from '@setwright/circuit';
import type { Capacity } from './capacities.ts';
import type { InductiveEdge } from './inductive-paths.ts';
import type { RadioGroups } from './radio-groups.ts';

/** A resistance and the two points it lies between. */
export interface Resistance {
  readonly part: Part;
  readonly ohms: number;
  readonly near: number;
  readonly far: number;
}

/** All that can have a say in the capacity across a tuned circuit, in the order of the text. */
export interface Surroundings {
  readonly edges: readonly InductiveEdge[];
  readonly capacities: readonly Capacity[];
  /** Resistances low enough for radio current to pass. */
  readonly lossers: readonly Resistance[];
  /** Resistances that only load. */
  readonly loads: readonly Resistance[];
}

interface Numbered<T> {
  readonly order: number;
  readonly each: T;
}

/** The same by the points they end on, so that one circuit's are found without the whole set's. */
export interface SurroundingsAt {
  readonly edges: ReadonlyMap<number, readonly Numbered<InductiveEdge>[]>;
  readonly capacities: ReadonlyMap<number, readonly Numbered<Capacity>[]>;
  readonly lossers: ReadonlyMap<number, readonly Numbered<Resistance>[]>;
  readonly loads: ReadonlyMap<number, readonly Numbered<Resistance>[]>;
}

const LOADS: ReadonlySet<string> = new Set(['resistor', 'leak', 'potentiometer']);

/** Sorts a set's pieces by the points they end on. Linear in the size of the set. */
export function surroundingsAt(
  circuit: Circuit,
  points: RadioGroups,
  edges: readonly InductiveEdge[],
  capacities: readonly Capacity[],
  smallOhms: number,
): SurroundingsAt {
  const lossers: Resistance[] = [];
  const loads: Resistance[] = [];
  for (const part of circuit.parts) {
    const ohms = part.values.resistance?.value;
    const [first, second] = part.ends;
    if (!LOADS.has(part.kind) || ohms === undefined || !first || !second) continue;
    const [near, far] = [points.of(first.junction), points.of(second.junction)];
    const each = { part, ohms, near, far };
    if (ohms > smallOhms) loads.push(each);
    else if (part.kind === 'resistor' && near !== far) lossers.push(each);
  }
  return {
    edges: byPoint(edges, ({ from, to }) => [from, to]),
    capacities: byPoint(capacities, ({ from, to }) => [from, to]),
    lossers: byPoint(lossers, ({ near, far }) => [near, far]),
    loads: byPoint(loads, ({ near, far }) => [near, far]),
  };
}

function byPoint<T>(
  all: readonly T[],
  endsOf: (each: T) => readonly [number, number],
): Map<number, Numbered<T>[]> {
  const at = new Map<number, Numbered<T>[]>();
  for (const [order, each] of all.entries()) {
    for (const point of new Set(endsOf(each))) {
      const list = at.get(point);
      if (list) list.push({ order, each });
      else at.set(point, [{ order, each }]);
    }
  }
  return at;
}

/**
 * What is reached from some points by windings, condensers and small resistances without passing
 * the point at rest. Nothing beyond that can change the volts of what is reached.
 */
export function surroundingsOf(
  at: SurroundingsAt,
  starts: Iterable<number>,
  rest: number | undefined,
): Surroundings {
  const seen = new Set<number>();
  const waiting = [...starts];
  const edges = new Map<number, InductiveEdge>();
  const capacities = new Map<number, Capacity>();
  const lossers = new Map<number, Resistance>();
  const loads = new Map<number, Resistance>();
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    if (here === rest || seen.has(here)) continue;
    seen.add(here);
    for (const { order, each } of at.edges.get(here) ?? []) {
      edges.set(order, each);
      waiting.push(each.from, each.to);
    }
    for (const { order, each } of at.capacities.get(here) ?? []) {
      capacities.set(order, each);
      waiting.push(each.from, each.to);
    }
    for (const { order, each } of at.lossers.get(here) ?? []) {
      lossers.set(order, each);
      waiting.push(each.near, each.far);
    }
    for (const { order, each } of at.loads.get(here) ?? []) loads.set(order, each);
  }
  return {
    edges: inOrder(edges),
    capacities: inOrder(capacities),
    lossers: inOrder(lossers),
    loads: inOrder(loads),
  };
}

const inOrder = <T>(found: ReadonlyMap<number, T>): T[] =>
  [...found].sort(([a], [b]) => a - b).map(([, each]) => each);
