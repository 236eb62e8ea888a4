import { suspectsOf } from '@setwright/bench';
import { suspectsInJson, suspectsInWords } from '@setwright/report';
import { benchesNamed } from './bench.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

export const suspectsFormats = ['text', 'json'] as const;

export interface SuspectsOptions {
  readonly format: (typeof suspectsFormats)[number];
  /** Title of the bench that counts; the first of each set where not given. */
  readonly bench: string | undefined;
}

/** `setwright suspects`: what may be the matter with a set by a bench of it, and what to do next. */
export function suspects(file: string, options: SuspectsOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a suspect may be missing or wrong here', streams);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(read.path, streams);
    return exitCodes.trouble;
  }
  const named = benchesNamed(read.circuits, options.bench, streams);
  if (!named) return exitCodes.trouble;
  const laws = new WeakMap();
  const all = named.flatMap(({ circuit, bench }) =>
    bench ? [suspectsOf(circuit, bench, { laws })] : [],
  );
  if (all.length === 0) {
    sayWrong(
      streams,
      'There is no bench in this file.',
      'Write what was read and heard: bench "first try" { heard "silent" and reading V3.plate 0 V on lines of their own }.',
    );
    return exitCodes.trouble;
  }
  streams.out.write(report(read.path, all, options, streams));
  return exitCodes.clean;
}

function report(
  path: string,
  all: readonly ReturnType<typeof suspectsOf>[],
  { format }: SuspectsOptions,
  streams: Streams,
): string {
  if (format === 'json') return suspectsInJson(path, all);
  const columns = streams.out.columns ?? 80;
  const styles = stylesFor(streams.out, streams.env);
  return `${all.map((each) => suspectsInWords(each, { columns, styles }).join('\n')).join('\n\n')}\n`;
}
