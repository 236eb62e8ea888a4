import type { Alignment, TunedSet } from '../small-signal/aligned-at.ts';
import {
  exactModes,
  type ModeOff,
  modelModes,
  type TunedShafts,
} from '../small-signal/modes-off.ts';
import { type ReducedNetwork, reducedNetwork } from '../small-signal/reduced-network.ts';
import { findRoot, logSlopeOf } from '../small-signal/root-search.ts';
import { mistuned, shaftsOf } from '../small-signal/shafts.ts';
import { isOfRole, tubePoints } from '../small-signal/signal-chain.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { stationModel } from '../small-signal/station-model.ts';
import { tunedSystem } from '../small-signal/tuned-system.ts';
import { worstTuning } from '../small-signal/worst-tuning.ts';
import type { Heard, Listening } from './listening.ts';
import { matricesOf, type ShortReduction } from './short-reduction.ts';

/**
 * A set that dies away by this share as fast as the sound one, with its dials apart as is worst
 * for that, does not squeal: its own worst is not sought.
 */
const SAFE = 0.7;

/** Whether a mode that was found grows: the set oscillates. */
export function isGrowing(growth: number | undefined): boolean {
  return growth !== undefined && growth > 0;
}

/**
 * A mode that grows or dies away by less than this share of its turning is not left to a model,
 * which is off by some hundred thousandths of it.
 */
const DOUBTFUL = 1e-3;

/** Searches for the fastest mode about a station, by a model of it where one can be made. */
interface ModesAbout {
  /** As near as the model is. */
  readonly rough: ModeOff;
  /** To within rounding where it is in doubt whether the mode grows. */
  readonly sure: ModeOff;
}

function modesAbout(
  set: SmallSignal,
  network: ReducedNetwork,
  tunedShafts: TunedShafts,
): ModesAbout {
  const { tuned, shafts, alignment } = tunedShafts;
  const systemAt = (tuning: Tuning) => tunedSystem(set.system, tuning);
  const exact = exactModes(tunedShafts, systemAt);
  const model = stationModel(network.size, matricesOf(network), alignment.frequency);
  if (!model) return { rough: exact, sure: exact };
  const rough = modelModes(tunedShafts, network, model);
  return {
    rough,
    sure(offsets) {
      const mode = rough(offsets);
      if (!mode) return exact(offsets);
      if (Math.abs(mode.growth) > DOUBTFUL * mode.radians) return mode;
      const tuning = mistuned(tuned, shafts, alignment, offsets);
      return findRoot(logSlopeOf(systemAt(tuning)), mode) ?? mode;
    },
  };
}

/** Growth of the fastest mode near the station with the set tuned to it. */
export function growthAt(
  set: SmallSignal,
  alignment: Alignment,
  present: TunedSet,
  network: ReducedNetwork,
): number | undefined {
  const shafts = shaftsOf(present);
  const { sure } = modesAbout(set, network, { tuned: present, shafts, alignment });
  return sure(shafts.map(() => 0))?.growth;
}

/** Growth of the fastest mode at the shortest station, in tune and with the dials apart. */
export function growthOf(
  set: SmallSignal,
  listening: Listening,
  present: TunedSet,
  fixed: Tuning,
  short: ShortReduction | undefined,
): Omit<Heard['growth'], 'station'> {
  const { shortest, shortAlignment, tuned, shafts, sound, apart } = listening;
  if (!short) return { shortest: undefined, apart: undefined };
  if (short.isAlike) return { shortest: sound.growth.shortest, apart: sound.growth.apart };
  const isWhole = present === tuned;
  const names = new Set(present.condensers);
  const circuits = shortAlignment.circuits.filter(({ condenser }) => names.has(condenser));
  const alignment: Alignment = {
    frequency: shortest,
    circuits,
    tuning: new Map([...fixed, ...circuits.map((each) => [each.condenser, each.farads] as const)]),
  };
  const own = isWhole ? shafts : shaftsOf(present);
  const { rough, sure } = modesAbout(set, short.network, {
    tuned: present,
    shafts: own,
    alignment,
  });
  const inTune = sure(own.map(() => 0))?.growth;
  const there = isWhole && apart ? rough(apart) : undefined;
  const before = sound.growth.apart;
  if (there && before !== undefined && before < 0 && there.growth < SAFE * before)
    return { shortest: inTune, apart: there.growth };
  const { offsets, mode } = worstTuning(own.length, rough);
  return { shortest: inTune, apart: (mode && sure(offsets))?.growth };
}

/** Shares by which the shafts are off where a sound set is nearest to squealing. */
export function worstOffsets(
  set: SmallSignal,
  listening: Listening,
): readonly number[] | undefined {
  const { tuned, shafts, shortAlignment, fixed, shortest } = listening;
  if (tuned.condensers.length === 0) return undefined;
  const network = reducedNetwork(set.system, tuned.condensers, fixed);
  const model = stationModel(network.size, matricesOf(network), shortest);
  if (!model) return undefined;
  const tunedShafts = { tuned, shafts, alignment: shortAlignment };
  return worstTuning(shafts.length, modelModes(tunedShafts, network, model)).offsets;
}

export function oscillatesOf(
  set: SmallSignal,
  { oscillator, circuit }: Listening,
  tuning: Tuning,
): boolean | undefined {
  if (!oscillator) return undefined;
  const root = findRoot(logSlopeOf(tunedSystem(set.system, tuning)), oscillator);
  const isNear = root && Math.abs(root.radians / oscillator.radians - 1) < 0.3;
  const hasTube = tubePoints(set).some(
    ({ part }) => isOfRole(set, part, 'oscillator') && circuit.partNamed.has(part.name),
  );
  return hasTube && root !== undefined && isNear === true && root.growth > 0;
}
