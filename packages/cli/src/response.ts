import {
  responseCharts,
  responseInCsv,
  responseInJson,
  responseInWords,
  responseOf,
  type Theme,
  type UnitStyle,
} from '@setwright/report';
import { charted } from './charted.ts';
import type { PartsAs } from './examine.ts';
import type { ExitCode } from './exit.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';

export const responseFormats = ['text', 'json', 'csv'] as const;

export interface ResponseOptions {
  readonly format: (typeof responseFormats)[number];
  readonly units: UnitStyle;
  /** Hertz; undefined for round numbers over the band. */
  readonly stations: readonly number[] | undefined;
  readonly plot: boolean;
  readonly output: string | undefined;
  readonly theme: Theme;
  readonly as: PartsAs;
}

/** `setwright response`: gain, selectivity and stability over the band, and the audio response. */
export function response(file: string, options: ResponseOptions, streams: Streams): ExitCode {
  const { format, units, stations } = options;
  const styles = stylesFor(streams.out, streams.env);
  return charted(file, options, streams, {
    because: 'a figure may be wrong here',
    reckon: (circuit) => responseOf(circuit, stations),
    report: (path, sets) =>
      format === 'json'
        ? responseInJson(path, sets)
        : format === 'csv'
          ? responseInCsv(sets)
          : undefined,
    words: (set, columns) => responseInWords(set, units, columns, styles),
    charts: (set) => responseCharts(set, units),
    wanting: 'Say enough of the set for its gain to be known.',
  });
}
