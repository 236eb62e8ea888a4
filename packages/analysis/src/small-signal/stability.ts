import type { Circuit } from '@setwright/circuit';
import type { OperatingPoint } from '../operating-point.ts';
import { type Alignment, alignedAt, type TunedSet, tunedSet } from './aligned-at.ts';
import { type FedModes, fedModes } from './fed-modes.ts';
import { type FittedPlane, fittedPlane } from './fitted-plane.ts';
import { exactModes, modelModes } from './modes-off.ts';
import { type Neutralized, neutralized } from './neutralizing.ts';
import { reducedNetwork } from './reduced-network.ts';
import { findRoot, logSlopeOf } from './root-search.ts';
import { mistuned, type Shaft, shaftsOf } from './shafts.ts';
import type { Tuning } from './signal-system.ts';
import { type SmallSignal, type SmallSignalOptions, smallSignal } from './small-signal.ts';
import { matricesIn, stationModel } from './station-model.ts';
import { stationsOf } from './stations.ts';
import { tunedSystem } from './tuned-system.ts';
import { type WorstTuning, worstTuning } from './worst-tuning.ts';

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
  const plane = fittedPlane(reducedNetwork(set.system, tuned.condensers, fixed), ...radio);
  const judged = stations.map((frequency) =>
    atStation(set, { tuned, shafts, fixed, plane }, frequency),
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

/** What is the same for all stations. */
interface Judging {
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  readonly fixed: Tuning;
  readonly plane: FittedPlane;
}

function atStation(set: SmallSignal, judging: Judging, frequency: number): StationStability {
  const { tuned, shafts, fixed, plane } = judging;
  const { low, high } = plane;
  const alignment = alignedAt(set, frequency, fixed, tuned);
  const aligned = fedModes(set, alignment.tuning, low, high, plane);
  const { offsets, mode } = worstAt(set, judging, alignment);
  const tuning = mistuned(tuned, shafts, alignment, offsets);
  const modes = fedModes(set, tuning, low, high, plane);
  const named = new Map(shafts.map(({ name }, at) => [name, offsets[at] ?? 0]));
  return {
    frequency,
    alignment,
    aligned,
    worst: { offsets: named, tuning, modes, growth: mode?.growth },
  };
}

/** Share of a mode's frequency by which a model of the station may be out. */
const MODEL_CLOSE = 1e-4;

/** Reach of a model, as a share of the frequency, within which all modes of its circuits lie. */
const WIDE = 0.1;

/**
 * The worst tuning, sought by a model of the station. Its mode is that of the whole equations;
 * where the model is too far off from them they do the search themselves.
 */
function worstAt(
  { system }: SmallSignal,
  { tuned, shafts, plane }: Judging,
  alignment: Alignment,
): WorstTuning {
  const tunedShafts = { tuned, shafts, alignment };
  const { network } = plane;
  const model = stationModel(network.size, matricesIn(plane), alignment.frequency);
  // A single shaft is soon gone through; then nothing beyond a narrow model is missed.
  const isEnough = model && (shafts.length > 1 || model.reach >= WIDE);
  if (isEnough) {
    const worst = worstTuning(shafts.length, modelModes(tunedShafts, network, model));
    const { offsets, mode } = worst;
    const tuning = mistuned(tuned, shafts, alignment, offsets);
    const own = mode && findRoot(logSlopeOf(tunedSystem(system, tuning)), mode);
    const off = own ? Math.hypot(own.growth - mode.growth, own.radians - mode.radians) : 0;
    if (own && off < MODEL_CLOSE * mode.radians) return { offsets, mode: own };
  }
  return worstTuning(
    shafts.length,
    exactModes(tunedShafts, (tuning) => tunedSystem(system, tuning)),
  );
}

function verdictOf(judged: readonly StationStability[], audio: FedModes) {
  const counts = judged.flatMap(({ aligned, worst }) => [aligned.unmeant, worst.modes.unmeant]);
  if (audio.unmeant === undefined || counts.includes(undefined)) return 'unknown';
  if (audio.unmeant > 0 || judged.some(({ aligned }) => (aligned.unmeant ?? 0) > 0))
    return 'aligned';
  return judged.some(({ worst }) => (worst.modes.unmeant ?? 0) > 0) ? 'mistuned' : 'steady';
}
