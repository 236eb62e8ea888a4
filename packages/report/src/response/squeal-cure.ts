import {
  type Margin,
  margin,
  type OperatingPoint,
  type SmallSignalOptions,
  type Stability,
  type StationStability,
  stability,
} from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';

/** What would just cure a set that squeals at radio frequency. */
export interface SquealCure {
  /** Hertz of the stations that it is reckoned at. */
  readonly stations: readonly number[];
  readonly margin: Margin;
  /** The Q of the coils that the margin holds for; undefined for the losses of the wire alone. */
  readonly quality: number | undefined;
  /** Whether it squeals with coils of a usual Q as well; undefined where that is not known. */
  readonly usually: boolean | undefined;
  /** What would do with such coils, where it squeals with them and that is not the margin. */
  readonly usualMargin: Margin | undefined;
}

/** Q of a usual coil of the time in its set: form, covering and cabinet counted. Common practice. */
export const USUAL_QUALITY = 100;

/**
 * What would just cure a set, reckoned at the ends and in the middle of where it squeals, with the
 * losses of the wire alone, so that no more is needed; where nothing cures it so, with usual coils.
 * Undefined for a set that does not squeal. It takes long.
 */
export function squealCure(
  circuit: Circuit,
  point: OperatingPoint,
  judged: Stability,
  options: SmallSignalOptions,
): SquealCure | undefined {
  const squealing = judged.stations
    .filter(isLoud)
    .map(({ frequency }) => frequency)
    .sort((a, b) => a - b);
  if (squealing.length === 0) return undefined;
  const middle = squealing[Math.floor((squealing.length - 1) / 2)];
  const stations = [...new Set([squealing[0], middle, squealing.at(-1)])].flatMap(
    (each) => each ?? [],
  );
  const usual = { ...options, quality: USUAL_QUALITY, stations };
  const usually = loudness(stability(circuit, point, usual).stations);
  const found = margin(circuit, point, { ...options, stations });
  const isFound = (found.seriesResistance ?? 0) > 0;
  const withUsual = usually === true ? margin(circuit, point, usual) : undefined;
  return isFound || !withUsual
    ? { stations, margin: found, quality: undefined, usually, usualMargin: withUsual }
    : { stations, margin: withUsual, quality: USUAL_QUALITY, usually, usualMargin: undefined };
}

function isLoud({ aligned, worst }: StationStability): boolean {
  return (aligned.unmeant ?? 0) > 0 || (worst.modes.unmeant ?? 0) > 0;
}

/** Whether any station squeals; undefined where none is known to and some are not known. */
function loudness(stations: readonly StationStability[]): boolean | undefined {
  if (stations.some(isLoud)) return true;
  const isKnown = stations.every(
    ({ aligned, worst }) => aligned.unmeant !== undefined && worst.modes.unmeant !== undefined,
  );
  return isKnown ? false : undefined;
}
