import {
  type FedModes,
  type OperatingPoint,
  operatingPoint,
  type Response,
  response,
  type SmallSignalOptions,
  type Stability,
  type StationResponse,
  type StationStability,
  smallSignal,
  stability,
  tunedCircuits,
} from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { type Band, bandOf } from '../values/bands.ts';
import { type BypassOpened, bypassesOpened } from './bypass-opened.ts';
import { type RegenerationTold, regenerationTold } from './regeneration-told.ts';
import { type SquealCure, squealCure, USUAL_QUALITY } from './squeal-cure.ts';

/** A set at one station. */
export interface StationTold {
  readonly heard: StationResponse;
  readonly quiet: StationStability | undefined;
}

/** How a set answers to a signal over its band. */
export interface SetResponse {
  readonly circuit: Circuit;
  readonly stations: readonly StationTold[];
  /** Of a superheterodyne from its mixer to the second detector. */
  readonly intermediate: Response['intermediate'];
  readonly audio: Response['audio'];
  readonly stability: Stability;
  /** What would just cure it, where it squeals at radio frequency. */
  readonly cure: SquealCure | undefined;
  /** How a regenerative set is governed. */
  readonly regeneration: RegenerationTold | undefined;
  /** What becomes of one station with coils of a usual Q: volts at the detector. */
  readonly usual: { readonly frequency: number; readonly detectorVolts: number } | undefined;
  /** What an opened bypass of the plate supply does to a set that is quiet with it. */
  readonly bypasses: readonly BypassOpened[];
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

/** An end of the band nearer to a round station than this share of a step needs no line. */
const NEAR_END = 0.3;

/**
 * Gain, selectivity and stability of a set over its band with the set on. A regenerative set that
 * oscillates as it is drawn is told of with its control backed off. Never throws.
 *
 * @param stations hertz; the ends of the band and round numbers over it where not given
 */
export function responseOf(circuit: Circuit, stations?: readonly number[]): SetResponse {
  const { settings } = asOn(circuit);
  const point = operatingPoint(circuit, settings);
  const wanted = stations ?? usualStations(circuit);
  const regeneration = regenerationTold(circuit, point, wanted);
  const stand: SmallSignalOptions = regeneration?.backedOff?.options ?? {};
  const options = wanted.length > 0 ? { ...stand, stations: wanted } : stand;
  const heard = response(circuit, point, options);
  const quiet = stability(circuit, point, options);
  const set = smallSignal(circuit, point, stand);
  const isKnown = heard.stations.every(
    ({ detectorVolts, oscillates }) => detectorVolts !== undefined || oscillates !== undefined,
  );
  return {
    circuit,
    stations: heard.stations.map((each, index) => ({ heard: each, quiet: quiet.stations[index] })),
    intermediate: heard.intermediate,
    audio: heard.audio,
    stability: quiet,
    cure: isKnown ? squealCure(circuit, point, quiet, stand) : undefined,
    regeneration,
    usual: isKnown ? withUsualCoils(circuit, point, heard, stand) : undefined,
    bypasses:
      isKnown && quiet.verdict === 'steady' ? bypassesOpened(circuit, point, heard, stand) : [],
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

/** The middle station once more, with coils that lose what usual coils of the time lose. */
function withUsualCoils(
  circuit: Circuit,
  point: OperatingPoint,
  heard: Response,
  stand: SmallSignalOptions,
): SetResponse['usual'] {
  const known = heard.stations.filter(({ detectorVolts }) => detectorVolts !== undefined);
  const frequency = known[Math.floor((known.length - 1) / 2)]?.frequency;
  if (frequency === undefined) return undefined;
  const options = { ...stand, quality: USUAL_QUALITY, stations: [frequency] };
  const detectorVolts = response(circuit, point, options).stations[0]?.detectorVolts;
  return detectorVolts === undefined ? undefined : { frequency, detectorVolts };
}

function usualStations(circuit: Circuit): readonly number[] {
  const band = bandOf(circuit, tunedCircuits(circuit));
  if (!band) return [];
  const { low, high } = inKilocycles(band);
  const step = steps.find((each) => (high - low) / each < MOST_STATIONS) ?? (high - low) / 10;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  const round = Array.from({ length: Math.max(0, last - first + 1) }, (_, n) => (first + n) * step);
  const isBare = (end: number, near: number | undefined): boolean =>
    near === undefined || Math.abs(end - near) > NEAR_END * step;
  return [
    ...(isBare(low, round[0]) ? [low] : []),
    ...round,
    ...(high > low && isBare(high, round.at(-1)) ? [high] : []),
  ];
}

/** A band whose ends are said in meters, at the kilocycles next to them. */
function inKilocycles({ low, high }: Band): Band {
  const rounded = (hertz: number): number => {
    const near = 1e3 * Math.round(hertz / 1e3);
    return Math.abs(near / hertz - 1) < NEXT_TO ? near : hertz;
  };
  return { low: rounded(low), high: rounded(high) };
}

/** Less than this share of a frequency no dial tells apart. */
const NEXT_TO = 5e-4;

/** Growing modes that nobody means to grow; undefined where their number is not known. */
export function growing({ unmeant }: FedModes): number | undefined {
  return unmeant;
}
