import {
  type Circuit,
  type Conduction,
  conductionOf,
  type Part,
  type Settings,
} from '@setwright/circuit';
import { separateGroups } from '../islands.ts';
import { type RadioGroups, radioGroups } from '../radio-groups.ts';
import type {
  CapacityPiece,
  Conductance,
  SeriesGroup,
  SignalNetwork,
  Steering,
} from './signal-network.ts';
import { INSULATION } from './usual-signal-values.ts';

/** Something that could not be taken up into a network as the set has it. */
export interface Lack {
  readonly part: string;
  readonly why: string;
}

/** A network in the making. */
export interface NetworkDraft {
  readonly circuit: Circuit;
  readonly settings: Settings;
  readonly conduction: Conduction;
  readonly groups: RadioGroups;
  readonly conductances: Conductance[];
  readonly capacities: CapacityPiece[];
  readonly steerings: Steering[];
  readonly series: SeriesGroup[];
  readonly lacks: Lack[];
  /** What was taken because the text does not say it. */
  readonly assumed: Set<string>;
  /** The point inside every tube's grid that a lead of its own was put before, by the tube. */
  readonly openedGrids: Map<string, number>;
  /** The point of a junction: junctions joined by closed contacts are one. */
  pointOf(junction: number): number;
  pointOfEnd(terminal: string): number | undefined;
  /** A point that no junction stands for. */
  fresh(): number;
}

/**
 * An empty network of a set; point 0 is its ground, else the zero of its first supply.
 *
 * @param conduction of the set with these settings, where it is known already
 */
export function draftOf(
  circuit: Circuit,
  settings: Settings,
  conduction: Conduction = conductionOf(circuit, settings),
): NetworkDraft {
  const joined = separateGroups(circuit.junctions.length);
  for (const { direct, fromJunction, toJunction } of conduction.branches)
    if (direct.kind === 'conducts' && direct.ohms === 0) joined.merge(fromJunction, toJunction);
  const groups = radioGroups(circuit, settings);
  const numbers = new Map<number, number>();
  const rest = restOf(circuit);
  let count = 0;
  if (rest !== undefined) numbers.set(joined.of(rest), 0);
  const pointOf = (junction: number): number => {
    const of = joined.of(junction);
    const known = numbers.get(of);
    if (known !== undefined) return known;
    count++;
    numbers.set(of, count);
    return count;
  };
  return {
    circuit,
    settings,
    conduction,
    groups,
    conductances: [],
    capacities: [],
    steerings: [],
    series: [],
    lacks: [],
    assumed: new Set(),
    openedGrids: new Map(),
    pointOf,
    pointOfEnd(terminal) {
      const junction = circuit.endNamed.get(terminal)?.junction;
      return junction === undefined ? undefined : pointOf(junction);
    },
    fresh: () => ++count,
  };
}

/** The junction that volts are counted from. */
function restOf(circuit: Circuit): number | undefined {
  const first = (wanted: (part: Part) => boolean) =>
    circuit.parts.find((part) => wanted(part) && part.ends.length > 0)?.ends[0]?.junction;
  return (
    first(({ kind, words }) => kind === 'post' && words.has('ground')) ??
    first(({ kind }) => kind === 'battery' || kind === 'eliminator') ??
    first(({ kind }) => kind === 'tube')
  );
}

/** The network that was drawn up, every point held by its insulation. */
export function networkOf(draft: NetworkDraft): SignalNetwork {
  const { conductances, capacities, steerings, series } = draft;
  const points = draft.fresh() - 1;
  const insulation = Array.from({ length: points }, (_, index) => ({
    from: index + 1,
    to: 0,
    siemens: INSULATION,
  }));
  const network = { points, conductances, capacities, steerings, series };
  return {
    ...network,
    conductances: [...conductances, ...insulation, ...tiesOf(network)],
  };
}

/** Siemens that hold what hangs together with nothing else; no current can come home by them. */
const TIE = 1e-3;

/**
 * One tie from each part of a network that stands apart to the point at rest: nothing flows
 * through a single tie, and without one its volts would hang on insulation alone, which is lost
 * in the rounding beside a large condenser.
 */
function tiesOf({ points, conductances, capacities, steerings, series }: SignalNetwork) {
  const groups = separateGroups(points + 1);
  for (const { from, to } of [...conductances, ...capacities]) groups.merge(from, to);
  for (const { pieces } of series) for (const { from, to } of pieces) groups.merge(from, to);
  for (const { from, to, plus, minus } of steerings)
    for (const point of [to, plus, minus]) groups.merge(from, point);
  const held = new Set([groups.of(0)]);
  return Array.from({ length: points }, (_, index) => index + 1).flatMap((point) => {
    const group = groups.of(point);
    if (held.has(group)) return [];
    held.add(group);
    return [{ from: point, to: 0, siemens: TIE }];
  });
}
