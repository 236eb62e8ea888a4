import { frequencyAtReading } from '@setwright/analysis';
import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import { csvOf } from '../text/csv.ts';
import type { Styles } from '../text/styles.ts';
import { tableOf } from '../text/table.ts';
import { printableJson, visible } from '../text/visible.ts';
import { wrapped } from '../text/wrapped.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { type DialReadings, headingOf } from './dial-readings.ts';
import { dialRemarks } from './report-dials.ts';

/** What stations the dials of a set stand for at some readings: an old log, read backwards. */
export interface DialsReversed {
  readonly set: DialReadings;
  readonly lines: readonly {
    /** As on the dial. */
    readonly reading: number;
    /** Hertz of the station, column by column; undefined off the scale. */
    readonly stations: readonly (number | undefined)[];
  }[];
}

/** What every dial is tuned to at readings of its own scale. An oscillator is told by the station. */
export function dialsReversed(
  dials: Omit<DialReadings, 'lines'>,
  readings: readonly number[],
): DialsReversed {
  return {
    set: { ...dials, lines: [] },
    lines: readings.map((reading) => ({
      reading,
      stations: dials.columns.map(({ of, above }) => {
        const tuned = frequencyAtReading(of, reading);
        const station = tuned === undefined ? undefined : tuned - above;
        return station !== undefined && station > 0 ? station : undefined;
      }),
    })),
  };
}

/** For a person: a table of readings by dials. */
export function dialsReversedInWords(
  { set, lines }: DialsReversed,
  style: UnitStyle,
  columns: number,
  styles: Styles,
): string[] {
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string) => wrapped(visible(words), width);
  const title = set.circuit.title || 'Receiver without a name';
  const isOff = lines.some(({ stations }) => stations.includes(undefined));
  const remarks = [
    ...(isOff ? ['A dash stands where a reading is off the scale of a dial.'] : []),
    ...dialRemarks(set, style).map(({ words }) => words),
  ];
  const table =
    set.columns.length === 0
      ? []
      : [
          ...tableOf(
            ['reading', ...set.columns.map(headingOf)].map(visible),
            lines.map(({ reading, stations }) => [
              String(reading),
              ...stations.map((station) =>
                station === undefined ? '–' : stationText(station, style),
              ),
            ]),
          ),
          '',
        ];
  return [
    styles.strong(visible(`${title}: what the dials are tuned to`)),
    '',
    ...table,
    ...remarks.flatMap(say),
  ];
}

/** To the kilocycle, as finely as a dial is read. */
function stationText(station: number, style: UnitStyle): string {
  return formatQuantity(station, 'frequency', style, station < 1e6 ? 3 : 4);
}

/** For other programs: hertz. */
export function dialsReversedInJson(path: string, sets: readonly DialsReversed[]): string {
  const report = {
    version: 1,
    path,
    receivers: sets.map(({ set, lines }) => ({
      title: set.circuit.title,
      dials: set.columns.map(({ name, of, above }) => ({
        dial: name,
        circuit: of.circuit.name,
        condenser: of.circuit.tuner,
        above,
      })),
      readings: lines.map(({ reading, stations }) => ({
        reading,
        stations: stations.map((station) => station ?? null),
      })),
      missing: set.unknown.map(({ name, missing }) => ({ circuit: name, missing })),
      taken: set.taken,
    })),
  };
  return `${printableJson(report)}\n`;
}

/** For a spreadsheet: one line for each dial at each reading. */
export function dialsReversedInCsv(sets: readonly DialsReversed[]): string {
  return csvOf(
    ['receiver', 'dial', 'circuit', 'reading', 'frequency', 'wavelength'],
    sets.flatMap(({ set, lines }) =>
      lines.flatMap(({ reading, stations }) =>
        stations.map((station, index) => [
          set.circuit.title,
          set.columns[index]?.name,
          set.columns[index]?.of.circuit.name,
          reading,
          station,
          station === undefined ? undefined : SPEED_OF_LIGHT / station,
        ]),
      ),
    ),
  );
}
