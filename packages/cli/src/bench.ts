import { type BenchChart, readingsOf } from '@setwright/bench';
import type { Bench, Circuit } from '@setwright/circuit';
import {
  benchInCsv,
  benchInJson,
  benchInMarkdown,
  benchInWords,
  listed,
  type UnitStyle,
} from '@setwright/report';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

export const benchFormats = ['text', 'json', 'csv', 'markdown'] as const;

export interface BenchOptions {
  readonly format: (typeof benchFormats)[number];
  readonly units: UnitStyle;
  /** Title of the bench of the text whose meter and readings count; its first where not given. */
  readonly bench: string | undefined;
}

/** `setwright bench`: the readings to expect, with what was read beside them. */
export function bench(file: string, options: BenchOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a reading may be missing or wrong here', streams);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(read.path, streams);
    return exitCodes.trouble;
  }
  const benches = benchesNamed(read.circuits, options.bench, streams);
  if (!benches) return exitCodes.trouble;
  const laws = new WeakMap();
  const charts = benches.map(({ circuit, bench: own }) =>
    readingsOf(circuit, { bench: own, laws }),
  );
  streams.out.write(report(read.path, charts, options, streams));
  return exitCodes.clean;
}

/**
 * Every set with the bench of this title, or its first; undefined where no set has one of it,
 * which has then been said.
 */
export function benchesNamed(
  circuits: readonly Circuit[],
  title: string | undefined,
  streams: Streams,
): readonly { readonly circuit: Circuit; readonly bench: Bench | undefined }[] | undefined {
  if (title === undefined)
    return circuits.map((circuit) => ({ circuit, bench: circuit.benches[0] }));
  const found = circuits.flatMap((circuit) => {
    const own = circuit.benches.find((each) => each.title === title);
    return own ? [{ circuit, bench: own }] : [];
  });
  if (found.length > 0) return found;
  const known = circuits.flatMap(({ benches }) => benches.map((each) => `"${each.title}"`));
  sayWrong(
    streams,
    `There is no bench called "${title}" in this file.`,
    known.length > 0 ? `It has ${listed(known)}.` : 'It has none.',
  );
  return undefined;
}

function report(
  path: string,
  charts: readonly BenchChart[],
  options: BenchOptions,
  streams: Streams,
): string {
  switch (options.format) {
    case 'json':
      return benchInJson(path, charts);
    case 'csv':
      return benchInCsv(charts);
    case 'markdown':
      return `${charts.map((chart) => benchInMarkdown(chart, options.units).join('\n')).join('\n\n')}\n`;
    case 'text': {
      const columns = streams.out.columns ?? 80;
      const styles = stylesFor(streams.out, streams.env);
      return `${charts
        .map((chart) => benchInWords(chart, options.units, columns, styles).join('\n'))
        .join('\n\n')}\n`;
    }
  }
}
