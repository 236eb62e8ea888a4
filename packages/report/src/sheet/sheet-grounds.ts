import { type FaultTable, faultsOf, faultTable } from '@setwright/bench';
import type { Checked } from '@setwright/checks';
import type { Bench, Circuit, Finding } from '@setwright/circuit';
import { dialColumns, dialReadings } from '../dials/dial-readings.ts';
import { stationsOver } from '../dials/stations.ts';
import { responseOf } from '../response/response-of.ts';
import { type Grounds, groundsWith, type TourViews } from '../tour/grounds.ts';
import type { Band } from '../values/bands.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { type PartValues, valuesOf } from '../values/values-of.ts';

/** What a sheet is given besides the set. */
export interface SheetOptions {
  readonly units?: UnitStyle;
  /** The bench whose meter and readings count; the first of the text where not given. */
  readonly bench?: Bench | undefined;
  /** What the checks, and the reading of the text, have to tell of this set. */
  readonly findings: readonly Finding[];
  /** What they would have told had a `meant` not said that it is on purpose. */
  readonly waived: Checked['waived'];
  /** A date to print, as the user writes it. Nothing is put in by itself. */
  readonly date?: string | undefined;
  /** What it is made by and from: `Setwright 0.1.0 from five-tube.receiver`. */
  readonly madeBy?: string | undefined;
}

/** Everything that a sheet is made from, each worked out once. */
export interface SheetGrounds extends Grounds {
  readonly bench: Bench | undefined;
  readonly values: readonly PartValues[];
  /** What each very common fault does, with the chart of the sound set. */
  readonly faults: FaultTable;
  readonly findings: readonly Finding[];
  readonly waived: Checked['waived'];
  readonly date: string | undefined;
}

/** Works out what a sheet is made from. Never throws. */
export function sheetGrounds(
  circuit: Circuit,
  views: TourViews,
  options: SheetOptions,
): SheetGrounds {
  const { units = 'period', findings, waived, date } = options;
  const bench = 'bench' in options ? options.bench : circuit.benches[0];
  const { parts } = valuesOf(circuit, units, false);
  const common = faultsOf(circuit).filter(({ prior }) => prior === 'very common');
  const faults = faultTable(circuit, { bench }, common);
  const grounds = groundsWith(circuit, views, { units }, (band) => ({
    rows: parts.flatMap(({ rows }) => rows),
    dials: dialReadings(dialColumns(circuit), band ? stations(band) : []),
    response: responseOf(circuit),
    supposed: faults,
  }));
  return { ...grounds, bench, values: parts, faults, findings, waived, date };
}

/** Lines of a dial chart that leave room for its picture on the same page. */
const MOST_LINES = 13;

/** Round stations over a band with both of its ends, few enough for a page. */
function stations(band: Band): readonly number[] {
  let round = stationsOver(band);
  for (const times of [2, 4]) {
    const [first = 0, second = 0] = stationsOver(band);
    if (round.length > MOST_LINES) round = stationsOver(band, times * (second - first));
  }
  return [...new Set([band.low, ...round, band.high])];
}
