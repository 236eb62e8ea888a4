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
  stationsOver,
  svgOf,
  type Theme,
  terminalChart,
  type UnitStyle,
} from '@setwright/report';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

export const dialsFormats = ['text', 'json', 'csv'] as const;

export interface DialsOptions {
  readonly format: (typeof dialsFormats)[number];
  readonly units: UnitStyle;
  /** Hertz; undefined for round numbers over the band. */
  readonly stations: readonly number[] | undefined;
  /** Hertz from one station to the next. */
  readonly every: number | undefined;
  readonly plot: boolean;
  readonly output: string | undefined;
  readonly theme: Theme;
}

/** `setwright dials`: where every dial stands for every station. */
export function dials(file: string, options: DialsOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a dial may be missing here', streams);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(streams);
    return exitCodes.trouble;
  }
  if (options.output !== undefined && !mayBeDrawnTo(options.output, read.file, streams))
    return exitCodes.trouble;
  const sets = read.circuits.map((circuit) => readingsOf(circuit, options));
  streams.out.write(report(read.path, sets, options, streams));
  if (options.output === undefined) return exitCodes.clean;
  const charts = sets.flatMap((set) => dialChart(set, options.units) ?? []);
  if (charts.length === 0) {
    sayWrong(
      streams,
      'There is no chart to be drawn.',
      'A chart needs two stations and a tuned circuit that the text tells enough of.',
    );
    return exitCodes.trouble;
  }
  const svg = svgOf(charts, options.theme);
  return writeDrawing(options.output, svg, streams) ? exitCodes.clean : exitCodes.trouble;
}

function readingsOf(circuit: Circuit, { stations, every }: DialsOptions): DialReadings {
  const found = dialColumns(circuit);
  const band = bandOf(circuit, tunedCircuits(circuit));
  return dialReadings(found, stations ?? (band ? stationsOver(band, every) : []));
}

function report(
  path: string,
  sets: readonly DialReadings[],
  options: DialsOptions,
  streams: Streams,
): string {
  switch (options.format) {
    case 'json':
      return dialsInJson(path, sets);
    case 'csv':
      return dialsInCsv(sets);
    case 'text': {
      const columns = streams.out.columns ?? 80;
      const styles = stylesFor(streams.out, streams.env);
      return `${sets
        .map((set) => {
          const chart = options.plot ? dialChart(set, options.units) : undefined;
          const plot = chart ? ['', ...terminalChart(chart, columns)] : [];
          return [...dialsInWords(set, options.units, columns, styles), ...plot].join('\n');
        })
        .join('\n\n')}\n`;
    }
  }
}
