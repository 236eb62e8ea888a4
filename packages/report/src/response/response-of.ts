import {
  type FedModes,
  operatingPoint,
  type Response,
  response,
  type Stability,
  type StationResponse,
  type StationStability,
  smallSignal,
  stability,
  tunedCircuits,
} from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { bandOf } from '../values/bands.ts';

/** A set at one station. */
export interface StationTold {
  readonly heard: StationResponse;
  readonly quiet: StationStability | undefined;
}

/** How a set answers to a signal over its band. */
export interface SetResponse {
  readonly circuit: Circuit;
  readonly stations: readonly StationTold[];
  readonly audio: Response['audio'];
  readonly stability: Stability;
  /** What is missing for the figures that are not known; empty where all are. */
  readonly missing: readonly string[];
  /** What was counted as nothing because the text does not say it. */
  readonly left: readonly string[];
  /** What was taken because the text does not say it. */
  readonly taken: readonly string[];
}

/** Stations over a band that are judged where nobody names any, and hertz between them. */
const MOST_STATIONS = 12;
const steps = [5e3, 10e3, 20e3, 50e3, 100e3, 200e3, 500e3, 1e6, 2e6, 5e6];

/**
 * Gain, selectivity and stability of a set over its band with the set on. Never throws.
 *
 * @param stations hertz; round numbers over the band where not given
 */
export function responseOf(circuit: Circuit, stations?: readonly number[]): SetResponse {
  const { settings } = asOn(circuit);
  const point = operatingPoint(circuit, settings);
  const wanted = stations ?? usualStations(circuit);
  const options = wanted.length > 0 ? { stations: wanted } : {};
  const heard = response(circuit, point, options);
  const quiet = stability(circuit, point, options);
  const set = smallSignal(circuit, point);
  const isKnown = heard.stations.every(
    ({ detectorVolts, oscillates }) => detectorVolts !== undefined || oscillates !== undefined,
  );
  return {
    circuit,
    stations: heard.stations.map((each, index) => ({ heard: each, quiet: quiet.stations[index] })),
    audio: heard.audio,
    stability: quiet,
    missing: isKnown
      ? []
      : set.entrance === undefined
        ? ['a post for the aerial or a loop, as in: post ANT aerial 250 mmfd']
        : ['a way for the signal from the aerial to a detector, by parts whose size is told'],
    left: [...new Set(set.lacks.map(({ part, why }) => `${part} (${why})`))],
    taken: set.assumed.filter(
      (words) =>
        !quiet.neutralized.some(({ condenser }) => words === `${condenser} is set half way`),
    ),
  };
}

function usualStations(circuit: Circuit): readonly number[] {
  const band = bandOf(circuit, tunedCircuits(circuit));
  if (!band) return [];
  const { low, high } = band;
  const step = steps.find((each) => (high - low) / each < MOST_STATIONS) ?? (high - low) / 10;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, n) => (first + n) * step);
}

/** Growing modes that nobody means to grow; undefined where their number is not known. */
export function growing({ unmeant }: FedModes): number | undefined {
  return unmeant;
}
