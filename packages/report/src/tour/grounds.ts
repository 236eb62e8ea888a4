import {
  type OperatingPoint,
  operatingPoint,
  type TunedCircuit,
  tunedCircuits,
} from '@setwright/analysis';
import { type FaultTable, supposedTable } from '@setwright/bench';
import { asOn, type Circuit } from '@setwright/circuit';
import type { Overlay, overlayOf, setAtWork, viewsOf } from '@setwright/diagram';
import { type DialReadings, dialColumns, dialReadings } from '../dials/dial-readings.ts';
import { responseOf, type SetResponse } from '../response/response-of.ts';
import { type Band, bandOf } from '../values/bands.ts';
import type { UnitStyle } from '../values/quantities.ts';
import type { ValueRow } from '../values/rows.ts';
import { valuesOf } from '../values/values-of.ts';
import { type Place, placesOf } from './places.ts';
import type { TourLevel, TourOptions } from './tour.ts';

/** What draws over a schematic. It comes from outside, for what draws is large and loaded late. */
export interface TourViews {
  readonly overlayOf: typeof overlayOf;
  readonly viewsOf: typeof viewsOf;
  /** Works out once what all views of a set share; each does it by itself where not given. */
  readonly setAtWork?: typeof setAtWork;
}

/** Everything that a tour is told from, each worked out once. */
export interface Grounds {
  readonly circuit: Circuit;
  readonly level: TourLevel;
  readonly style: UnitStyle;
  readonly point: OperatingPoint;
  readonly rows: readonly ValueRow[];
  readonly tuned: readonly TunedCircuit[];
  readonly band: Band | undefined;
  readonly dials: DialReadings;
  readonly response: SetResponse;
  /** The sound set's chart, and what each `suppose` does. */
  readonly supposed: FaultTable;
  readonly places: readonly Place[];
  /** What has been explained to newcomers: nothing is explained twice. */
  readonly explained: Set<string>;
  /** A view of the drawing; undefined for one that the set does not have. */
  readonly overlay: (view: string) => Overlay | undefined;
}

/** Works out what a tour is told from. Never throws. */
export function groundsOf(circuit: Circuit, views: TourViews, options: TourOptions): Grounds {
  const [bench] = circuit.benches;
  return groundsWith(circuit, views, options, (band) => ({
    rows: valuesOf(circuit, options.units ?? 'period').parts.flatMap(({ rows }) => rows),
    dials: dialReadings(dialColumns(circuit), band ? [band.low, band.high] : []),
    response: responseOf(circuit, stationsIn(band)),
    supposed: supposedTable(circuit, circuit.supposes, bench ? { bench } : {}),
  }));
}

/** The same with what takes long handed in, for a set that tunes a band or none. */
export function groundsWith(
  circuit: Circuit,
  views: TourViews,
  { level = 'restorer', units = 'period' }: TourOptions,
  reckon: (band: Band | undefined) => Pick<Grounds, 'rows' | 'dials' | 'response' | 'supposed'>,
): Grounds {
  const { settings } = asOn(circuit);
  const tuned = tunedCircuits(circuit, settings);
  const band = bandOf(circuit, tuned);
  const known = new Map<string, Overlay | undefined>();
  const work = views.setAtWork?.(circuit);
  const overlay = (view: string): Overlay | undefined => {
    if (!known.has(view)) known.set(view, views.overlayOf(circuit, view, work ? { work } : {}));
    return known.get(view);
  };
  return {
    circuit,
    level,
    style: units,
    point: operatingPoint(circuit, settings),
    tuned,
    band,
    ...reckon(band),
    explained: new Set(),
    places: placesOf(circuit, overlay('radio'), overlay('audio')),
    overlay,
  };
}

/** Both ends of the band and a round station in its middle, in hertz. */
export function stationsIn(band: Band | undefined): readonly number[] {
  if (!band) return [];
  const { low, high } = band;
  const round = 1e4 * Math.round(Math.sqrt(low * high) / 1e4);
  return [...new Set([low, ...(round > low && round < high ? [round] : []), high])];
}
