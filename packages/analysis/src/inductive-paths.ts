import type { Circuit } from '@setwright/circuit';
import { type CoilMatrix, coilMatrix } from './coil-matrix.ts';
import { isAirInductor, type RadioGroups } from './radio-groups.ts';
import { type SingleInductor, singleInductor } from './single-inductors.ts';
import { missingOf, type Reckoned, unknown } from './value-because.ts';
import type { CoilSection } from './winding-sections.ts';
import type { WindingValues } from './winding-values.ts';

/** An air-core winding's section, or a whole loop or variometer, between two points. */
export interface InductiveEdge {
  /** The winding, loop or variometer. */
  readonly part: string;
  readonly from: number;
  readonly to: number;
  readonly fromEnd: string;
  readonly toEnd: string;
  /** The coil and the index of its section; undefined for a loop or variometer. */
  readonly coil: CoilMatrix | undefined;
  readonly index: number;
  readonly section: CoilSection | undefined;
  readonly values: WindingValues | undefined;
  readonly single: SingleInductor | undefined;
}

/** An edge passed forwards (1) or backwards (−1). */
export interface PathStep {
  readonly edge: InductiveEdge;
  readonly sign: 1 | -1;
}

/** Every air-core inductance of the set, by section. */
export function inductiveEdges(circuit: Circuit, points: RadioGroups): readonly InductiveEdge[] {
  const matrices = new Map<string, CoilMatrix | undefined>();
  const edges: InductiveEdge[] = [];
  for (const part of circuit.parts) {
    if (!isAirInductor(circuit, part)) continue;
    const single = singleInductor(part);
    if (single) {
      const [first, second] = part.ends;
      if (!first || !second) continue;
      edges.push({
        part: part.name,
        from: points.of(first.junction),
        to: points.of(second.junction),
        fromEnd: first.id,
        toEnd: second.id,
        coil: undefined,
        index: -1,
        section: undefined,
        values: undefined,
        single,
      });
      continue;
    }
    const owner = part.owner ?? '';
    if (!matrices.has(owner)) matrices.set(owner, coilMatrix(circuit, owner));
    const coil = matrices.get(owner);
    for (const [index, section] of (coil?.sections ?? []).entries()) {
      if (section.winding !== part.name) continue;
      const from = points.ofEnd(section.from);
      const to = points.ofEnd(section.to);
      if (from === undefined || to === undefined) continue;
      const values = coil?.windings.find((each) => each.part === part);
      edges.push({
        part: part.name,
        from,
        to,
        fromEnd: section.from,
        toEnd: section.to,
        coil,
        index,
        section,
        values,
        single: undefined,
      });
    }
  }
  return edges;
}

/** Windings in series beyond which a tuned circuit is no longer looked for. */
const MOST_IN_SERIES = 3;

/**
 * The way from one point to another through the fewest sections, of at most three windings in
 * series and not through the point at rest between them; undefined where there is none.
 */
export function inductivePath(
  at: ReadonlyMap<number, readonly InductiveEdge[]>,
  from: number,
  to: number,
  rest: number | undefined,
): readonly PathStep[] | undefined {
  if (from === to) return undefined;
  const arrived = new Map<number, { before: number; step: PathStep; parts: Set<string> }>();
  let front = [from];
  while (front.length > 0) {
    const next: number[] = [];
    for (const here of front) {
      if (here === rest && here !== from) continue;
      for (const edge of at.get(here) ?? []) {
        const there = edge.from === here ? edge.to : edge.from;
        if (there === here || there === from || arrived.has(there)) continue;
        const parts = new Set(arrived.get(here)?.parts).add(edge.part);
        if (parts.size > MOST_IN_SERIES) continue;
        const step: PathStep = { edge, sign: edge.from === here ? 1 : -1 };
        arrived.set(there, { before: here, step, parts });
        if (there === to) return stepsBack(arrived, from, to);
        next.push(there);
      }
    }
    front = next;
  }
  return undefined;
}

function stepsBack(
  arrived: ReadonlyMap<number, { before: number; step: PathStep }>,
  from: number,
  to: number,
): readonly PathStep[] {
  const steps: PathStep[] = [];
  for (let here = to; here !== from; ) {
    const by = arrived.get(here);
    if (!by) break;
    steps.unshift(by.step);
    here = by.before;
  }
  return steps;
}

/** Henries between two edges: mutual inductance of sections of one coil, else none. */
export function mutualOf(one: InductiveEdge, other: InductiveEdge): number | undefined {
  if (one === other && one.single) return one.single.inductance.value;
  if (one.coil === undefined || one.coil !== other.coil) return one === other ? undefined : 0;
  return one.coil.entries[one.index]?.[other.index];
}

/** Inductance of a whole path in series, its sections' mutual inductances counted. */
export function pathInductance(path: readonly PathStep[]): Reckoned {
  const missing = new Set<string>();
  const sources = new Map<string, Reckoned>();
  let sum = 0;
  for (const one of path) {
    const own = one.edge.values?.inductance ?? one.edge.single?.inductance;
    if (own) sources.set(one.edge.part, own);
    for (const lack of own ? missingOf(own) : []) missing.add(lack);
    for (const other of path) {
      const henries = mutualOf(one.edge, other.edge);
      if (henries === undefined && missing.size === 0)
        missing.add(`how ${one.edge.part} and ${other.edge.part} couple`);
      sum += one.sign * other.sign * (henries ?? 0);
    }
  }
  if (missing.size > 0) return unknown(...missing);
  const known = [...sources.values()].flatMap((each) =>
    each.value === undefined ? [] : [each.because],
  );
  const errors = known.flatMap(({ relativeError }) => relativeError ?? []);
  const isPlain = sources.size === 1 && known.length === 1;
  return {
    value: sum,
    because: {
      formula: isPlain ? (known[0]?.formula ?? '') : 'windings in series with their coupling',
      facts: [...new Set(known.flatMap(({ facts }) => facts))],
      assumed: [...new Set(known.flatMap(({ assumed }) => assumed))],
      source: [...new Set(known.map(({ source }) => source))].join('; '),
      ...(errors.length > 0 ? { relativeError: Math.max(...errors) } : {}),
    },
  };
}
