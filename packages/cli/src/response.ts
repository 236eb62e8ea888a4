import {
  responseCharts,
  responseInCsv,
  responseInJson,
  responseInWords,
  responseOf,
  type SetResponse,
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

export const responseFormats = ['text', 'json', 'csv'] as const;

export interface ResponseOptions {
  readonly format: (typeof responseFormats)[number];
  readonly units: UnitStyle;
  /** Hertz; undefined for round numbers over the band. */
  readonly stations: readonly number[] | undefined;
  readonly plot: boolean;
  readonly output: string | undefined;
  readonly theme: Theme;
}

/** `setwright response`: gain, selectivity and stability over the band, and the audio response. */
export function response(file: string, options: ResponseOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a figure may be wrong here', streams);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(streams);
    return exitCodes.trouble;
  }
  if (options.output !== undefined && !mayBeDrawnTo(options.output, read.file, streams))
    return exitCodes.trouble;
  const sets = read.circuits.map((circuit) => responseOf(circuit, options.stations));
  streams.out.write(report(read.path, sets, options, streams));
  if (options.output === undefined) return exitCodes.clean;
  const charts = sets.flatMap((set) => responseCharts(set, options.units));
  if (charts.length === 0) {
    sayWrong(
      streams,
      'There is no chart to be drawn.',
      'Say enough of the set for its gain to be known.',
    );
    return exitCodes.trouble;
  }
  return writeDrawing(options.output, svgOf(charts, options.theme), streams)
    ? exitCodes.clean
    : exitCodes.trouble;
}

function report(
  path: string,
  sets: readonly SetResponse[],
  options: ResponseOptions,
  streams: Streams,
): string {
  switch (options.format) {
    case 'json':
      return responseInJson(path, sets);
    case 'csv':
      return responseInCsv(sets);
    case 'text': {
      const columns = streams.out.columns ?? 80;
      const styles = stylesFor(streams.out, streams.env);
      return `${sets
        .map((set) => {
          const charts = options.plot ? responseCharts(set, options.units) : [];
          const plots = charts.flatMap((chart) => ['', ...terminalChart(chart, columns)]);
          return [...responseInWords(set, options.units, columns, styles), ...plots].join('\n');
        })
        .join('\n\n')}\n`;
    }
  }
}
