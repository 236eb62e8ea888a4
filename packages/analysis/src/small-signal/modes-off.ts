import type { Alignment, TunedSet } from './aligned-at.ts';
import { fastestNear } from './fastest-mode.ts';
import { capacitiesOf, type Stamped } from './reduced-network.ts';
import { logSlopeOf } from './root-search.ts';
import { mistuned, type Shaft, turnedOff } from './shafts.ts';
import type { Tuning } from './signal-system.ts';
import { modelSlope, type StationModel } from './station-model.ts';
import type { ComplexFrequency, TunedSystem } from './tuned-system.ts';

/**
 * The fastest mode near a station with the shafts off it by shares of its frequency, in their
 * order: radians and nepers per second; undefined where none is found.
 */
export type ModeOff = (offsets: readonly number[]) => ComplexFrequency | undefined;

/** What a set is tuned by, and how it is tuned to a station. */
export interface TunedShafts {
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  readonly alignment: Alignment;
}

/** Share of a root within which a search by a model is settled; its last step is far smaller. */
const SETTLED = 1e-5;

/** A little beyond its reach a model still holds; far beyond, what it says is not so. */
const BEYOND = 1.4;

/**
 * By the whole equations.
 *
 * @param systemAt the set with its condensers in one way
 */
export function exactModes(
  { tuned, shafts, alignment }: TunedShafts,
  systemAt: (tuning: Tuning) => TunedSystem,
): ModeOff {
  return (offsets) => {
    const system = systemAt(mistuned(tuned, shafts, alignment, offsets));
    const detuned = detunedBy(tuned, shafts, offsets);
    return fastestNear(logSlopeOf(system), alignment.frequency, detuned);
  };
}

/** By a model of the station: for searches that ask very often. */
export function modelModes(
  { tuned, shafts, alignment }: TunedShafts,
  network: Stamped,
  model: StationModel,
): ModeOff {
  const known = shafts.map(() => new Map<number, Float64Array>());
  const added = new Float64Array(network.size * network.size);
  const slope = modelSlope(model, added);
  return (offsets) => {
    added.fill(0);
    for (const [at, shaft] of shafts.entries()) {
      const offset = offsets[at] ?? 0;
      let own = known[at]?.get(offset);
      if (!own) {
        own = capacitiesOf(network, turnedOff(tuned, shaft, alignment, offset));
        known[at]?.set(offset, own);
      }
      for (let entry = 0; entry < own.length; entry++)
        added[entry] = (added[entry] as number) + (own[entry] as number);
    }
    const detuned = detunedBy(tuned, shafts, offsets);
    return fastestNear(slope, alignment.frequency, detuned, BEYOND * model.reach, SETTLED);
  };
}

/** Share of the frequency that each circuit of a set is off by. */
function detunedBy(
  { circuits }: TunedSet,
  shafts: readonly Shaft[],
  offsets: readonly number[],
): readonly number[] {
  return circuits.map((_, at) => {
    const shaft = shafts.findIndex(({ circuits: members }) => members.includes(at));
    return offsets[shaft] ?? 0;
  });
}
