import type { Bench, Circuit } from '@setwright/circuit';
import type { ChartOptions } from '../chart/readings.ts';
import type { Spot } from '../chart/spot.ts';
import { edited } from '../edits/edited.ts';
import { effectOfFault } from '../effects/effect-of.ts';
import { type SoundSet, soundSet } from '../effects/sound-set.ts';
import type { Fault, Symptom } from '../faults/fault.ts';
import { faultsOf } from '../faults/faults-of.ts';
import { degreesOf, spreadOut } from './degrees.ts';
import { type Foreseeing, foreseeing } from './foreseen.ts';
import { searchingSpots } from './more-spots.ts';

/** What may be the matter with a set: nothing, one fault, or two. */
export interface Cause {
  /** Tells it from every other of the same set. */
  readonly id: string;
  /** None where the set is sound. */
  readonly faults: readonly Fault[];
  /** How probable it is before anything is known of this set; all together make one. */
  readonly prior: number;
  readonly sounding: Sounding;
  /** The set as it is with that, by how far the fault has gone. */
  readonly states: readonly CauseState[];
}

/** What the ear tells of a set. */
export interface Sounding {
  readonly heard: ReadonlySet<Symptom>;
  /** Whether that is all; not where it cannot be reckoned what becomes of a signal. */
  readonly isHeardKnown: boolean;
  /** By how many decibels a tap on a tube's grid is louder than in the sound set, by its name. */
  readonly clicks: ReadonlyMap<string, number>;
  /** Dials, or condensers without one, whose turning does nothing. */
  readonly deadDials: ReadonlySet<string>;
  /** What is left of the sharpness of a dial, by its name; all of it where nothing is said. */
  readonly dialsLeft: ReadonlyMap<string, number>;
  /** What may be lost by leaving the set on. */
  readonly dangers: readonly string[];
}

export interface CauseState {
  /** Of all cases of this cause. */
  readonly share: number;
  readonly set: Foreseeing;
}

/** A set with everything that may be the matter with it, worked out once for any reading of it. */
export interface CaseBook {
  readonly circuit: Circuit;
  readonly sound: SoundSet;
  /** The spots of the chart. */
  readonly spots: readonly Spot[];
  /** The sound set first, then every single fault in the order of the text. */
  readonly causes: readonly Cause[];
  /** Tubes of which a tap on the grid tells something, and dials whose turning does. */
  readonly tapped: readonly string[];
  readonly dials: readonly string[];
  /** The most that any cause leads to at a spot, found as it is asked for. */
  readonly most: Map<string, number>;
}

/**
 * A set that comes to the bench is sound in so many cases, has one fault, has two. Common
 * practice, and no statistics.
 */
const SOUND = 0.06;
const ONE_FAULT = 0.79;
const TWO_FAULTS = 0.15;

/**
 * Works out what every single fault does to a set. Takes the meter and the volts of the batteries
 * from the bench, and nothing else. The square of the set's size. Never throws.
 */
export function caseBook(circuit: Circuit, options: ChartOptions = {}): CaseBook {
  const { bench } = options;
  const sound = soundSet(circuit, { ...options, bench: bench && groundsOf(bench) });
  const { standing, chart, listening } = sound;
  // What a fault does to the readings of the chart is foreseen when it is asked for.
  const unread: SoundSet = { ...sound, chart: { ...chart, readings: [] } };
  const faults = faultsOf(circuit).filter((fault) => !isMeasured(circuit, bench, fault));
  const whole = faults.reduce((sum, { weight }) => sum + weight, 0);
  const isSignalKnown = listening?.sound.detectorVolts !== undefined;
  const dials = new Set<string>();
  const singles = faults.map((fault): Cause => {
    const { heard, clicks, deadDials, dialsLeft, dangers } = effectOfFault(unread, fault);
    for (const dial of dialsLeft.keys()) dials.add(dial);
    return {
      id: fault.id,
      faults: [fault],
      prior: (ONE_FAULT * fault.weight) / whole,
      sounding: {
        heard: new Set(heard),
        // Where audio is dead it does not matter what becomes of the signal before.
        isHeardKnown: isSignalKnown || heard.includes('silent'),
        clicks,
        deadDials: new Set(deadDials),
        dialsLeft,
        dangers,
      },
      states: spreadOut(
        degreesOf(fault).map(({ edits, share, amount }) => ({
          share,
          amount,
          set: foreseeing(sound, edited(standing, edits)),
        })),
      ),
    };
  });
  const tapped = singles[0] ? [...singles[0].sounding.clicks.keys()] : [];
  const nothing: Cause = {
    id: '',
    faults: [],
    prior: faults.length === 0 ? 1 : SOUND,
    sounding: {
      heard: new Set(),
      isHeardKnown: isSignalKnown,
      clicks: new Map(tapped.map((tube) => [tube, 0])),
      deadDials: new Set(),
      dialsLeft: new Map(),
      dangers: [],
    },
    states: [{ share: 1, set: foreseeing(sound, standing) }],
  };
  return {
    circuit,
    sound,
    spots: spotsOf(sound),
    causes: [nothing, ...singles],
    tapped,
    dials: listening ? [...dials].sort() : [],
    most: new Map(),
  };
}

/** The spots of the chart, and those where a fault is looked for besides. */
function spotsOf({ chart, model }: SoundSet): readonly Spot[] {
  const rest = model?.asItIs;
  const searching = searchingSpots(chart.circuit, (part) => rest?.through(part)?.amperes ?? 0);
  return [...new Map([...chart.readings, ...searching].map((each) => [each.id, each])).values()];
}

/** Two faults at once. Both are heard, and each is as probable as it was alone. */
export function bothOf(book: CaseBook, one: Cause, other: Cause): Cause {
  const { sound } = book;
  const faults = [...one.faults, ...other.faults];
  const edits = faults.flatMap((fault) => fault.edits);
  return {
    id: `${one.id} and ${other.id}`,
    faults,
    prior: TWO_FAULTS * 2 * (one.prior / ONE_FAULT) * (other.prior / ONE_FAULT),
    sounding: soundingOfBoth(one.sounding, other.sounding),
    states: [{ share: 1, set: foreseeing(sound, edited(sound.standing, edits)) }],
  };
}

export function soundingOfBoth(one: Sounding, other: Sounding): Sounding {
  return {
    heard: new Set([...one.heard, ...other.heard]),
    isHeardKnown: one.isHeardKnown && other.isHeardKnown,
    clicks: new Map(
      [...one.clicks].map(([tube, click]) => [tube, click + (other.clicks.get(tube) ?? 0)]),
    ),
    deadDials: new Set([...one.deadDials, ...other.deadDials]),
    dialsLeft: new Map(
      [...new Set([...one.dialsLeft.keys(), ...other.dialsLeft.keys()])].map((dial) => [
        dial,
        (one.dialsLeft.get(dial) ?? 1) * (other.dialsLeft.get(dial) ?? 1),
      ]),
    ),
    dangers: [...new Set([...one.dangers, ...other.dangers])],
  };
}

/** A battery of which the volts were measured is not down to others. */
function isMeasured(circuit: Circuit, bench: Bench | undefined, { kind, part }: Fault): boolean {
  return (
    kind === 'low-battery' &&
    (bench?.entries ?? []).some(
      ({ kind: said, at, value }) =>
        said === 'actual' && value !== undefined && circuit.partOfEnd.get(at ?? '')?.name === part,
    )
  );
}

/** What a bench says of its meter and its batteries. */
function groundsOf(bench: Bench): Bench {
  return {
    ...bench,
    entries: bench.entries.filter(({ kind }) => kind === 'meter' || kind === 'actual'),
  };
}
