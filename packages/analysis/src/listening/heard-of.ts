import { alignedAt, type TunedSet } from '../small-signal/aligned-at.ts';
import { fedModes } from '../small-signal/fed-modes.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { tunedSystem } from '../small-signal/tuned-system.ts';
import { audioOf } from './audio-heard.ts';
import { audioWinding } from './audio-winding.ts';
import { growthAt, growthOf, isGrowing, oscillatesOf } from './growth-heard.ts';
import { inGangs } from './in-gangs.ts';
import { type Heard, type Listening, type TurnedUp, unheard } from './listening.ts';
import { radioOf } from './radio-heard.ts';
import { regeneratesOf } from './regeneration-turned.ts';
import { shortReduction } from './short-reduction.ts';
import { radioTaps } from './taps-heard.ts';

/** Of the sound set's audio this much, 60 decibels down, nobody hears any more. */
const UNHEARD = 1e-3;

/** What is heard of a set that may have a fault, with every circuit that can be in tune in tune. */
export function heardOf(set: SmallSignal, listening: Listening, turnedUp: TurnedUp): Heard {
  const present = presentTuned(set, listening);
  const fixed = standing(set, listening, listening.fixed);
  const aligned = alignedAt(set, listening.station, fixed, present);
  const wanted = new Map([...standing(set, listening, listening.tuning), ...aligned.tuning]);
  const at = inGangs(set, listening, present, wanted);
  const radio = radioOf(set, listening, at, present);
  const audio = audioOf(set, listening, at);
  const heard = {
    farads: new Map(present.condensers.map((name) => [name, at.get(name) ?? 0])),
    sharpness: radio.sharpness,
    ...audio,
    radioClicks: radioTaps(set, listening, at),
  };
  const { sound } = listening;
  const isSilent =
    audio.audio !== undefined && sound.audio !== undefined && audio.audio < UNHEARD * sound.audio;
  // However it oscillates nothing comes to the ear.
  if (isSilent) return { ...unheard, ...heard, detectorVolts: radio.volts, howls: sound.howls };
  const short = shortReduction(set, listening, present, fixed);
  // What is no other at the short waves is no other at the station.
  const growth = short?.isAlike
    ? sound.growth.station
    : short && growthAt(set, { ...aligned, tuning: at }, present, short.network);
  return {
    ...heard,
    // Of a set that oscillates there is no steady signal to speak of.
    detectorVolts: isGrowing(growth) ? undefined : radio.volts,
    growth: { station: growth, ...growthOf(set, listening, present, fixed, short) },
    howls:
      listening.axis &&
      audioWinding(tunedSystem(set.system, at), listening.axis, (low, high) =>
        fedModes(set, at, low, high),
      ),
    oscillates: oscillatesOf(set, listening, at),
    regenerates: regeneratesOf(set, listening, present, at, turnedUp),
  };
}

/** A tuning without the condensers that a fault has set otherwise. */
function standing(set: SmallSignal, { circuit }: Listening, tuning: Tuning): Tuning {
  return new Map(
    [...tuning].filter(
      ([name]) =>
        circuit.partNamed.get(name)?.values.set === set.circuit.partNamed.get(name)?.values.set,
    ),
  );
}

/** Those of the tuned circuits whose condenser still is in the network. */
function presentTuned(set: SmallSignal, { tuned }: Listening): TunedSet {
  const { turned } = set.system;
  const kept = tuned.condensers.flatMap((name, at) => (turned.has(name) ? at : []));
  if (kept.length === tuned.condensers.length) return tuned;
  const only = (all: Float64Array) => Float64Array.from(kept, (at) => all[at] as number);
  return {
    circuits: kept.flatMap((at) => tuned.circuits[at] ?? []),
    condensers: kept.flatMap((at) => tuned.condensers[at] ?? []),
    reach: { least: only(tuned.reach.least), most: only(tuned.reach.most) },
  };
}
