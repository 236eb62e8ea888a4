import {
  type ChangedRest,
  type OperatingPoint,
  operatingPoint,
  type Push,
  type Reckoning,
  type RestModel,
  restModel,
  tubeLawOf,
} from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { edited } from '../edits/edited.ts';
import type { SetStanding } from '../edits/workbench.ts';
import type { Known } from './known.ts';
import type { Deviation } from './tolerances.ts';

/** A set at rest that readings can be taken of. */
export interface RestSource {
  readonly standing: SetStanding;
  readonly known: Known;
  /** Whether it is known of every tube in its socket what it draws; else nothing can be told. */
  readonly isDrawKnown: boolean;
  /** Undefined where no state of rest was found, or one that small changes cannot be told of. */
  readonly rest: ChangedRest | undefined;
  /** Volts between two terminals with no meter there; undefined where nothing ties them together. */
  readonly openVolts: (at: string, to: string) => number | undefined;
  /** Models of it with a meter in, where a meter ties together what nothing else does. */
  readonly tied: RestModel[];
  /** What every deviation of its parts pushes; in their order, empty without a rest. */
  readonly pushes: readonly Push[];
}

/** The set with its battery switches on, and every control where it is found to stand. */
export function standingOf(circuit: Circuit, { laws }: Known): SetStanding {
  const point = operatingPoint(circuit, asOn(circuit).settings, { laws });
  const held = new Map(
    point.controls.flatMap(({ part, ohms, travel }) =>
      travel === undefined && circuit.partNamed.get(part)?.kind === 'rheostat'
        ? [[part, ohms] as const]
        : [],
    ),
  );
  return { circuit, settings: point.settings, held };
}

/** The same with all tubes out of their sockets. */
export function withTubesOut({ circuit, settings, held }: SetStanding): SetStanding {
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube').map(({ name }) => name);
  return {
    circuit,
    settings: { ...settings, removed: new Set([...settings.removed, ...tubes]) },
    held,
  };
}

/** A set at rest, worked out from the beginning. */
export function modelOf(standing: SetStanding, known: Known): RestModel | undefined {
  const { circuit, settings, held } = standing;
  return restModel(circuit, settings, { held, ...known });
}

/** What readings are taken of. */
export function sourceOf(
  standing: SetStanding,
  known: Known,
  rest: ChangedRest | undefined,
  deviations: readonly Deviation[],
): RestSource {
  const pushes = rest ? deviations.map(({ parameter }) => rest.push(parameter)) : [];
  let plain: OperatingPoint | undefined;
  const openVolts = (at: string, to: string): number | undefined => {
    if (rest) return rest.voltage(at, to);
    plain ??= pointOf(standing, known);
    return plain.voltage(at, to);
  };
  return {
    standing,
    known,
    isDrawKnown: strangeTube(standing, known) === undefined,
    rest,
    openVolts,
    tied: [],
    pushes,
  };
}

/** A tube in its socket of which it is not known what it draws. */
export function strangeTube(
  { circuit, settings }: SetStanding,
  { laws }: Known,
): string | undefined {
  return circuit.parts.find(
    ({ kind, name, tubeType }) =>
      kind === 'tube' &&
      !settings.removed.has(name) &&
      (tubeType === undefined || tubeLawOf(tubeType, laws).plate === undefined),
  )?.name;
}

function pointOf({ circuit, settings, held }: SetStanding, { laws }: Known): OperatingPoint {
  return operatingPoint(circuit, settings, { held, laws });
}

/**
 * Volts that a meter of so many ohms shows between two terminals. Where the meter itself is what
 * ties them together, the set is worked out anew with it in.
 */
export function voltsWith(
  source: RestSource,
  at: string,
  to: string,
  load: number,
): Reckoning | undefined {
  const found = source.rest?.metered(at, to, load);
  if (found || !Number.isFinite(load)) return found;
  const withMeter = edited(source.standing, [
    { verb: 'join', target: at, other: to, amount: { value: load, dimension: 'resistance' } },
  ]);
  const model = withMeterIn(source, withMeter);
  const shown = model?.metered(at, to, Number.POSITIVE_INFINITY);
  // What a part pushes is told of the set with the meter in: without it there are other points.
  if (model && shown)
    return { value: shown.value, by: ({ parameter }) => shown.by(model.push(parameter)) };
  const value = pointOf(withMeter, source.known).voltage(at, to);
  return value === undefined ? undefined : { value, by: () => 0 };
}

/** The set with a meter in: by a model with another meter in, where that ties the same together. */
function withMeterIn({ tied, known }: RestSource, metered: SetStanding): ChangedRest | undefined {
  for (const model of tied) {
    const changed = model.changed(metered.circuit, metered.settings);
    if (changed) return changed;
  }
  const model = modelOf(metered, known);
  if (model) tied.push(model);
  return model?.asItIs;
}
