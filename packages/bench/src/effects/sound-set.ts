import {
  type ChangedRest,
  type CoilsKnown,
  coilMatrix,
  type Listening,
  listeningTo,
  operatingPoint,
  type RestModel,
  smallSignal,
  type TubeInChange,
} from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';
import { type ColdNetwork, coldNetwork } from '../chart/cold-network.ts';
import { type ChartGrounds, type ChartOptions, chartGrounds } from '../chart/readings.ts';
import { modelOf } from '../chart/rest-source.ts';
import type { SetStanding } from '../edits/workbench.ts';

/** A sound set, worked out once, that its faulty selves are held against. */
export interface SoundSet extends ChartGrounds {
  readonly model: RestModel | undefined;
  readonly listening: Listening | undefined;
  readonly tubes: readonly TubeInChange[];
  readonly cold: ColdNetwork;
  /** Its coils, by their names. */
  readonly coils: CoilsKnown;
}

/** Works a sound set out: its chart, its state of rest, and what is heard of it. */
export function soundSet(circuit: Circuit, options: ChartOptions = {}): SoundSet {
  const grounds = chartGrounds(circuit, options);
  const { standing, known } = grounds;
  const model = modelOf(standing, known);
  const coils = coilsOf(standing.circuit);
  return {
    ...grounds,
    model,
    listening: model && listenTo(standing, model.asItIs, coils),
    tubes: model?.asItIs.tubes ?? [],
    cold: coldNetwork(standing, true, known),
    coils,
  };
}

function coilsOf(circuit: Circuit): CoilsKnown {
  return new Map(
    circuit.parts.flatMap(({ name }) => {
      const matrix = coilMatrix(circuit, name);
      return matrix ? [[name, { matrix, losses: new Map() }] as const] : [];
    }),
  );
}

function listenTo({ circuit }: SetStanding, rest: ChangedRest, coils: CoilsKnown): Listening {
  const point = rest.signalPoint;
  return listeningTo(smallSignal(circuit, point, { coils }), (turned) =>
    smallSignal(circuit, point, { turned }),
  );
}

/** A faulty set at rest: by what the fault changes in the sound one, or from the beginning. */
export interface FaultyRest {
  readonly rest: ChangedRest | undefined;
  /** Whether it was had by what the fault changes alone. */
  readonly isQuick: boolean;
}

/** The state of rest of a set with a fault. */
export function faultyRest(sound: SoundSet, faulty: SetStanding, quick = true): FaultyRest {
  const isHeldAlike = faulty.held === sound.standing.held;
  const changed =
    quick && isHeldAlike ? sound.model?.changed(faulty.circuit, faulty.settings) : undefined;
  if (changed) return { rest: changed, isQuick: true };
  return { rest: modelOf(faulty, sound.known)?.asItIs, isQuick: false };
}

/** Those of the sound set's coils that a fault leaves as they were. */
export function sameCoils({ coils, standing }: SoundSet, { circuit }: SetStanding): CoilsKnown {
  return new Map(
    [...coils].filter(([name, { matrix }]) =>
      [name, ...matrix.windings.map(({ part }) => part.name)].every(
        (each) => circuit.partNamed.get(each) === standing.circuit.partNamed.get(each),
      ),
    ),
  );
}

/** What small signals of a set go by where no model of its rest can be had. */
export function plainPoint(faulty: SetStanding, { known }: SoundSet) {
  return operatingPoint(faulty.circuit, faulty.settings, { held: faulty.held, laws: known.laws });
}
