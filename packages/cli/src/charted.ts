import type { Circuit } from '@setwright/circuit';
import { svgOf, type Theme, terminalChart } from '@setwright/report';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import type { PartsAs } from './examine.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

type Chart = Parameters<typeof terminalChart>[0];

/** What a command that tells of the sets of a file, and draws charts of them, is asked. */
interface ChartedOptions {
  /** Whether charts are drawn in the terminal too. */
  readonly plot: boolean;
  /** The file that charts are drawn into. */
  readonly output: string | undefined;
  readonly theme: Theme;
  readonly as: PartsAs;
}

/** What such a command does with every set. */
interface Charted<Told> {
  /** What a line that cannot be read means for the answer: `a dial may be missing here`. */
  readonly because: string;
  readonly reckon: (circuit: Circuit) => Told;
  /** All sets for other programs; undefined where they are told in words. */
  readonly report: (path: string, sets: readonly Told[]) => string | undefined;
  readonly words: (set: Told, columns: number) => readonly string[];
  readonly charts: (set: Told) => readonly Chart[];
  /** What the text would have to say for a chart to be drawn. */
  readonly wanting: string;
}

/** Tells of every set of a file, and draws the charts of all of them into one. */
export function charted<Told>(
  file: string,
  { plot, output, theme, as }: ChartedOptions,
  streams: Streams,
  { because, reckon, report, words, charts, wanting }: Charted<Told>,
): ExitCode {
  const read = readOneFile(file, because, streams, as);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(read.path, streams);
    return exitCodes.trouble;
  }
  if (output !== undefined && !mayBeDrawnTo(output, read.file, streams)) return exitCodes.trouble;
  const sets = read.circuits.map(reckon);
  const columns = streams.out.columns ?? 80;
  const inWords = (set: Told): string =>
    [
      ...words(set, columns),
      ...(plot ? charts(set).flatMap((chart) => ['', ...terminalChart(chart, columns)]) : []),
    ].join('\n');
  streams.out.write(report(read.path, sets) ?? `${sets.map(inWords).join('\n\n')}\n`);
  if (output === undefined) return exitCodes.clean;
  const all = sets.flatMap(charts);
  if (all.length === 0) {
    sayWrong(streams, 'There is no chart to be drawn.', wanting);
    return exitCodes.trouble;
  }
  return writeDrawing(output, svgOf(all, theme), streams) ? exitCodes.clean : exitCodes.trouble;
}
