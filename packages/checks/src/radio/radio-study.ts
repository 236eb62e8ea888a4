import {
  type CoilMatrix,
  coilMatrix,
  type RadioGroups,
  radioGroups,
  type TunedCircuit,
  tunedCircuits,
} from '@setwright/analysis';
import type { Conduction } from '@setwright/circuit';
import type { TubeAt } from '../tubes/tubes.ts';
import type { Nearest } from '../wiring/least-ohms.ts';
import { radioWays, tubesAtRest } from './radio-ways.ts';
import {
  type GridCircuit,
  gridCircuitsOf,
  type PlateCircuit,
  plateCircuitsOf,
} from './radio-wiring.ts';

/** What the checks of radio circuits ask of a set, each computed once and only when asked for. */
export interface RadioStudy {
  /** What is one point at radio frequency. */
  readonly points: RadioGroups;
  /** Whether a junction is at rest at radio frequency: ground, filaments, batteries, bypassed. */
  readonly isRest: (junction: number) => boolean;
  readonly tuned: readonly TunedCircuit[];
  /** The inductances of a coil or transformer by its name. */
  readonly coil: (name: string) => CoilMatrix | undefined;
  readonly gridCircuits: readonly GridCircuit[];
  readonly plateCircuits: readonly PlateCircuit[];
  /** Junctions tied to filaments and cathodes by nothing but their leads. */
  readonly tubesAtRest: ReadonlySet<number>;
  /** Ways of least impedance from there at a frequency in hertz. */
  readonly ways: (frequency: number) => Nearest;
}

/** Makes the study of a set's radio circuits. */
export function radioStudyOf(conduction: Conduction, tubes: readonly TubeAt[]): RadioStudy {
  const { circuit, settings } = conduction;
  const points = once(() => radioGroups(circuit, settings));
  const isRest = (junction: number) => points().of(junction) === points().ground;
  const tuned = once(() => tunedCircuits(circuit, settings));
  const coils = new Map<string, CoilMatrix | undefined>();
  const grids = once(() => gridCircuitsOf(conduction, tubes, isRest));
  const plates = once(() => plateCircuitsOf(conduction, tubes, isRest));
  const rest = once(() => tubesAtRest(conduction));
  const ways = new Map<number, Nearest>();
  return {
    get points() {
      return points();
    },
    isRest,
    get tuned() {
      return tuned();
    },
    coil(name) {
      if (!coils.has(name)) coils.set(name, coilMatrix(circuit, name));
      return coils.get(name);
    },
    get gridCircuits() {
      return grids();
    },
    get plateCircuits() {
      return plates();
    },
    get tubesAtRest() {
      return rest();
    },
    ways(frequency) {
      const known = ways.get(frequency) ?? radioWays(conduction, rest(), grids(), frequency);
      ways.set(frequency, known);
      return known;
    },
  };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
