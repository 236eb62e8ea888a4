import type { Circuit } from '@setwright/circuit';
import type { OperatingPoint } from '../operating-point.ts';
import { type Alignment, alignedAt, alignment, type TunedSet, tunedSet } from './aligned-at.ts';
import { type AudioResponse, audioResponse } from './audio-response.ts';
import type { Question } from './bordered-system.ts';
import { type DetectorPort, type RadioWay, radioWay } from './detector-port.ts';
import { type FedModes, fedModes } from './fed-modes.ts';
import { type FittedPlane, fittedPlane } from './fitted-plane.ts';
import { type IntermediateResponse, intermediateResponse } from './intermediate-response.ts';
import { neutralized } from './neutralizing.ts';
import { reducedNetwork } from './reduced-network.ts';
import { peak } from './resonating.ts';
import { type Selectivity, selectivity } from './selectivity.ts';
import type { Tuning } from './signal-system.ts';
import { type SmallSignal, type SmallSignalOptions, smallSignal } from './small-signal.ts';
import { stationsOf } from './stations.ts';
import { strengthIn } from './strength.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';
import { tuningPorts } from './tuning-ports.ts';

/** What a stage makes of the signal. */
export interface StageGain {
  readonly tube: string;
  /** The stage of the text that holds the tube. */
  readonly stage: string | undefined;
  /** Volts from grid to filament or cathode for one volt in the aerial. */
  readonly gridVolts: number;
  readonly plateVolts: number;
  /** From this grid to the next, or to the crystal; undefined for the last. */
  readonly gain: number | undefined;
}

/** A set tuned to a station. */
export interface StationResponse {
  /** Hertz. */
  readonly frequency: number;
  readonly alignment: Alignment;
  /**
   * A set that oscillates at this tuning, other than by an oscillator's stage: there is no steady signal to speak of, and all figures
   * of gain are undefined.
   */
  readonly oscillates: FedModes | undefined;
  readonly stages: readonly StageGain[] | undefined;
  /** Volts at the detector for one volt in the aerial. */
  readonly detectorVolts: number | undefined;
  readonly selectivity: Selectivity | undefined;
}

/** How a set answers to a signal. */
export interface Response {
  readonly stations: readonly StationResponse[];
  /** Of a superheterodyne from its mixer to the second detector. */
  readonly intermediate: IntermediateResponse | undefined;
  readonly audio: AudioResponse | undefined;
}

export interface ResponseOptions extends SmallSignalOptions {
  /** Hertz; five over the band where not given. */
  readonly stations?: readonly number[];
  /** Hands keep the tuning of a set whose tubes amplify nothing; else they turn for most signal. */
  readonly peaked?: boolean;
}

/** Radio modes that would drown a station are looked for down to and up to these shares of it. */
const BELOW = 0.2;
const ABOVE = 5;

/**
 * Response of a set over its band: from the dummy aerial to every grid, the detector and the
 * output. At each station every circuit is put in tune, then turned for the most signal at the
 * detector, as a listener does.
 */
export function response(
  circuit: Circuit,
  point: OperatingPoint,
  options: ResponseOptions = {},
): Response {
  const set = smallSignal(circuit, point, options);
  const stations = options.stations ?? stationsOf(set);
  const middle = stations[Math.floor(stations.length / 2)] ?? 1e6;
  const fixed = new Map(
    neutralized(set, middle).map(({ condenser, farads }) => [condenser, farads] as const),
  );
  const isPeaked = options.peaked !== false;
  const tuned = tunedSet(set);
  const rest = alignedAt(set, middle, fixed, tuned).tuning;
  const { detector } = radioWay(set, middle, rest);
  const question = detector && questionOf(set, detector);
  const judging: Judging = {
    set,
    tuned,
    fixed,
    isPeaked,
    plane: fittedPlane(
      reducedNetwork(set.system, tuned.condensers, fixed, question),
      BELOW * Math.min(...stations),
      ABOVE * Math.max(...stations),
    ),
  };
  return {
    stations: stations.map((frequency) => atStation(judging, frequency)),
    intermediate: intermediateResponse(set, rest),
    audio: audioResponse(set, rest),
  };
}

/** What is the same for all stations. */
interface Judging {
  readonly set: SmallSignal;
  readonly tuned: TunedSet;
  readonly fixed: Tuning;
  readonly isPeaked: boolean;
  readonly plane: FittedPlane;
}

function atStation(judging: Judging, frequency: number): StationResponse {
  const { set, fixed, isPeaked, plane, tuned: toTune } = judging;
  const aligned = alignedAt(set, frequency, fixed, toTune);
  const range = [BELOW * frequency, ABOVE * frequency] as const;
  const modesOf = (tuning: Tuning) => fedModes(set, tuning, ...range, plane);
  const nothing = { stages: undefined, detectorVolts: undefined, selectivity: undefined };
  const before = modesOf(aligned.tuning);
  if (before.unmeant !== 0)
    return { frequency, alignment: aligned, oscillates: before, ...nothing };
  let tuned = aligned;
  if (isPeaked) {
    const loudest = peaked(set, aligned, fixed, toTune);
    // Turned for the most signal a set near the edge may be led over it: then it is left in tune.
    if (loudest && modesOf(loudest.tuning).unmeant === 0) tuned = loudest;
  }
  const way = radioWay(set, frequency, tuned.tuning);
  const stages = stagesOf(set, frequency, tuned.tuning, way);
  const strength =
    way.detector && strengthIn(plane, set.system, questionOf(set, way.detector), tuned.tuning);
  return {
    frequency,
    alignment: tuned,
    oscillates: undefined,
    stages,
    detectorVolts: strength?.(frequency),
    selectivity: strength && selectivity(strength, frequency),
  };
}

/** How strongly the detector hears one volt in the aerial. */
function questionOf({ entrance }: SmallSignal, { plus, minus }: DetectorPort): Question {
  return { series: entrance?.series ?? '', plus, minus };
}

/** The set turned for the most volts across its last tuned circuit. */
function peaked(
  set: SmallSignal,
  aligned: Alignment,
  fixed: Tuning,
  { circuits, condensers, reach }: TunedSet,
): Alignment | undefined {
  const { frequency } = aligned;
  const ports = tuningPorts(set.system, condensers, frequency, set.entrance?.series, fixed);
  if (!ports) return undefined;
  const farads = Float64Array.from(aligned.circuits, (each) => each.farads);
  peak(ports, reach, farads, farads.length - 1);
  return alignment(frequency, circuits, reach, farads, fixed);
}

function stagesOf(
  set: SmallSignal,
  frequency: number,
  tuning: Tuning,
  { tubes, detector }: RadioWay,
): readonly StageGain[] | undefined {
  const at = { growth: 0, radians: 2 * Math.PI * frequency };
  const room = eliminateAt(tunedSystem(set.system, tuning), at);
  if (!room || set.entrance === undefined) return undefined;
  const electromotive = new Map([[set.entrance.series, [1, 0] as const]]);
  const { re, im } = solveDriven(set.system, room, { electromotive });
  const across = (plus: number, minus: number): number =>
    Math.hypot(
      (re[plus] as number) - (re[minus] as number),
      (im[plus] as number) - (im[minus] as number),
    );
  return tubes.map(({ part, grid, plate, reference }, index) => {
    const gridVolts = across(grid, reference);
    const next = tubes[index + 1];
    const beyond = next
      ? across(next.grid, next.reference)
      : detector && detector.tube === undefined
        ? across(detector.plus, detector.minus)
        : undefined;
    return {
      tube: part.name,
      stage: part.stage,
      gridVolts,
      plateVolts: across(plate, reference),
      gain: beyond === undefined || !(gridVolts > 0) ? undefined : beyond / gridVolts,
    };
  });
}
