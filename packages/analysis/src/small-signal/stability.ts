import type { Circuit } from '@setwright/circuit';
import type { OperatingPoint } from '../operating-point.ts';
import { type Alignment, alignedAt, type TunedSet, tunedSet } from './aligned-at.ts';
import { type FedModes, fedModes } from './fed-modes.ts';
import { type Neutralized, neutralized } from './neutralizing.ts';
import { mistuned, type Shaft, shaftsOf } from './shafts.ts';
import type { Tuning } from './signal-system.ts';
import { type SmallSignal, type SmallSignalOptions, smallSignal } from './small-signal.ts';
import { stationsOf } from './stations.ts';
import { worstTuning } from './worst-tuning.ts';

/** How a set behaves when it is tuned to one station. */
export interface StationStability {
  /** Hertz. */
  readonly frequency: number;
  readonly alignment: Alignment;
  /** Every circuit in tune. */
  readonly aligned: FedModes;
  /** The dials off the station in the worst way. */
  readonly worst: {
    /** By the dial's, gang's or condenser's name: the share of the frequency it is off by. */
    readonly offsets: ReadonlyMap<string, number>;
    readonly tuning: Tuning;
    readonly modes: FedModes;
    /**
     * Nepers per second of the fastest mode near the station; negative for one that dies,
     * undefined where none is found.
     */
    readonly growth: number | undefined;
  };
}

/** Whether a set oscillates by itself, and how. */
export interface Stability {
  /**
   * - `steady`: nowhere. `mistuned`: only with the dials apart. `aligned`: in tune with a station.
   * - `unknown`: the determinant could not be followed.
   *
   * What the tube of an oscillator's stage keeps going by itself does not count.
   */
  readonly verdict: 'steady' | 'mistuned' | 'aligned' | 'unknown';
  readonly stations: readonly StationStability[];
  /** Below radio: howling and motorboating, tuned to the middle station. */
  readonly audio: FedModes;
  readonly neutralized: readonly Neutralized[];
  /** Hertz between which radio and audio modes were looked for. */
  readonly searched: {
    readonly radio: readonly [number, number];
    readonly audio: readonly [number, number];
  };
}

/** What is judged otherwise than usual. */
export interface StabilityOptions extends SmallSignalOptions {
  /** Hertz; five over the band where not given. */
  readonly stations?: readonly number[];
}

/** Hertz at which audio modes end and radio modes begin, and the lowest. */
const AUDIO_LOW = 2;
const DIVIDE = 50e3;

/** Radio modes are looked for up to this many times the highest station. */
const BEYOND = 5;

/**
 * Whether any natural mode of a set grows: in tune with stations over its band, and with each dial
 * by itself up to 3.5 percent off to either side, the worst case of a tuned amplifier lying some
 * 45 degrees off tune. Neutralizing condensers that the text does not set are balanced first.
 *
 * Left out: coupling between coils by their fields, and what cabinet and hands add. What the wire
 * of the coils alone loses is the least that they lose; `quality` says otherwise.
 */
export function stability(
  circuit: Circuit,
  point: OperatingPoint,
  options: StabilityOptions = {},
): Stability {
  const set = smallSignal(circuit, point, options);
  const stations = options.stations ?? stationsOf(set);
  const tuned = tunedSet(set);
  const shafts = shaftsOf(tuned);
  const middle = stations[Math.floor(stations.length / 2)] ?? 1e6;
  const balanced = neutralized(set, middle);
  const fixed = new Map(balanced.map(({ condenser, farads }) => [condenser, farads]));
  const radio = [DIVIDE, BEYOND * Math.max(1e6, ...stations)] as const;
  const judged = stations.map((frequency) =>
    atStation(set, tuned, shafts, frequency, fixed, radio),
  );
  const rest = judged[Math.floor(judged.length / 2)]?.alignment.tuning ?? fixed;
  const audio = fedModes(set, rest, AUDIO_LOW, DIVIDE);
  return {
    verdict: verdictOf(judged, audio),
    stations: judged,
    audio,
    neutralized: balanced,
    searched: { radio, audio: [AUDIO_LOW, DIVIDE] },
  };
}

function atStation(
  set: SmallSignal,
  tuned: TunedSet,
  shafts: readonly Shaft[],
  frequency: number,
  fixed: Tuning,
  [low, high]: readonly [number, number],
): StationStability {
  const alignment = alignedAt(set, frequency, fixed, tuned);
  const aligned = fedModes(set, alignment.tuning, low, high);
  const { offsets, growth } = worstTuning(set.system, tuned, shafts, alignment);
  const tuning = mistuned(tuned, shafts, alignment, offsets);
  const modes = fedModes(set, tuning, low, high);
  const named = new Map(shafts.map(({ name }, at) => [name, offsets[at] ?? 0]));
  return {
    frequency,
    alignment,
    aligned,
    worst: { offsets: named, tuning, modes, growth: Number.isFinite(growth) ? growth : undefined },
  };
}

function verdictOf(judged: readonly StationStability[], audio: FedModes) {
  const counts = judged.flatMap(({ aligned, worst }) => [aligned.unmeant, worst.modes.unmeant]);
  if (audio.unmeant === undefined || counts.includes(undefined)) return 'unknown';
  if (audio.unmeant > 0 || judged.some(({ aligned }) => (aligned.unmeant ?? 0) > 0))
    return 'aligned';
  return judged.some(({ worst }) => (worst.modes.unmeant ?? 0) > 0) ? 'mistuned' : 'steady';
}
