import { tunedCircuits } from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';
import {
  bandOf,
  type DialReadings,
  dialChart,
  dialColumns,
  dialReadings,
  dialsInCsv,
  dialsInJson,
  dialsInWords,
  dialsReversed,
  dialsReversedInCsv,
  dialsReversedInJson,
  dialsReversedInWords,
  stationsOver,
  type Theme,
  type UnitStyle,
} from '@setwright/report';
import { charted } from './charted.ts';
import type { PartsAs } from './examine.ts';
import type { ExitCode } from './exit.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';

export const dialsFormats = ['text', 'json', 'csv'] as const;

export interface DialsOptions {
  readonly format: (typeof dialsFormats)[number];
  readonly units: UnitStyle;
  /** Hertz; undefined for round numbers over the band. */
  readonly stations: readonly number[] | undefined;
  /** Hertz from one station to the next. */
  readonly every: number | undefined;
  /** Readings that are asked back for what they tune to; undefined where stations are asked for. */
  readonly readings: readonly number[] | undefined;
  readonly plot: boolean;
  readonly output: string | undefined;
  readonly theme: Theme;
  readonly as: PartsAs;
}

/** `setwright dials`: where every dial stands for every station, or what readings tune to. */
export function dials(file: string, options: DialsOptions, streams: Streams): ExitCode {
  const { format, units, readings } = options;
  const styles = stylesFor(streams.out, streams.env);
  if (readings)
    return charted(file, options, streams, {
      because: 'a dial may be missing here',
      reckon: (circuit) => dialsReversed(dialColumns(circuit), readings),
      report: (path, sets) =>
        format === 'json'
          ? dialsReversedInJson(path, sets)
          : format === 'csv'
            ? dialsReversedInCsv(sets)
            : undefined,
      words: (set, columns) => dialsReversedInWords(set, units, columns, styles),
      charts: () => [],
      wanting: 'A chart is drawn for stations, not for readings.',
    });
  return charted(file, options, streams, {
    because: 'a dial may be missing here',
    reckon: (circuit) => readingsOf(circuit, options),
    report: (path, sets) =>
      format === 'json' ? dialsInJson(path, sets) : format === 'csv' ? dialsInCsv(sets) : undefined,
    words: (set, columns) => dialsInWords(set, units, columns, styles),
    charts: (set) => {
      const chart = dialChart(set, units);
      return chart ? [chart] : [];
    },
    wanting: 'A chart needs two stations and a tuned circuit that the text tells enough of.',
  });
}

function readingsOf(circuit: Circuit, { stations, every }: DialsOptions): DialReadings {
  const found = dialColumns(circuit);
  const band = bandOf(circuit, tunedCircuits(circuit));
  return dialReadings(found, stations ?? (band ? stationsOver(band, every) : []));
}
