import {
  type OperatingPoint,
  operatingPoint,
  type TunedCircuit,
  tunedCircuits,
} from '@setwright/analysis';
import { type FaultTable, supposedTable } from '@setwright/bench';
import { asOn, type Circuit } from '@setwright/circuit';
import type { Overlay, overlayOf, viewsOf } from '@setwright/diagram';
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
export function groundsOf(
  circuit: Circuit,
  views: TourViews,
  { level = 'restorer', units = 'period' }: TourOptions,
): Grounds {
  const { settings } = asOn(circuit);
  const tuned = tunedCircuits(circuit, settings);
  const band = bandOf(circuit, tuned);
  const known = new Map<string, Overlay | undefined>();
  const overlay = (view: string): Overlay | undefined => {
    if (!known.has(view)) known.set(view, views.overlayOf(circuit, view));
    return known.get(view);
  };
  const stations = stationsIn(band);
  const [bench] = circuit.benches;
  return {
    circuit,
    level,
    style: units,
    point: operatingPoint(circuit, settings),
    rows: valuesOf(circuit, units).parts.flatMap(({ rows }) => rows),
    tuned,
    band,
    dials: dialReadings(dialColumns(circuit), band ? [band.low, band.high] : []),
    response: responseOf(circuit, stations),
    supposed: supposedTable(circuit, circuit.supposes, bench ? { bench } : {}),
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
