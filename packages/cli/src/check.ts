import { allChecks, quickChecks } from '@setwright/checks';
import type { CheckRun } from './check-run.ts';
import { examine, type FileExamined, type PartsAs, tallyOf } from './examine.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { inputsOf } from './inputs.ts';
import { progressOn } from './progress.ts';
import { readSource } from './read-source.ts';
import { githubReport } from './report-github.ts';
import { jsonReport } from './report-json.ts';
import { sarifReport } from './report-sarif.ts';
import { textReport } from './report-text.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayTroubles } from './troubles.ts';
import { version } from './version.ts';

export const checkFormats = ['text', 'json', 'sarif', 'github'] as const;

export interface CheckOptions {
  readonly format: (typeof checkFormats)[number];
  /** Warnings that may be left before they count as findings. */
  readonly maxWarnings: number;
  readonly as: PartsAs;
  /** Whether the checks that take long are run too. */
  readonly thorough: boolean;
}

/** `setwright check`: tells what is wrong with sets, and whether B can reach a filament. */
export function check(files: readonly string[], options: CheckOptions, streams: Streams): ExitCode {
  const inputs = inputsOf(files, 'check', streams);
  if (!inputs) return exitCodes.trouble;
  const checks = options.thorough ? allChecks : quickChecks;
  const progress = progressOn(streams.err, inputs.sources.length);
  const troubles = [...inputs.troubles];
  const examined: FileExamined[] = [];
  for (const source of inputs.sources) {
    const read = readSource(source);
    if ('cause' in read) troubles.push(read);
    else examined.push(examine(source.path, read.text, options.as, checks));
    progress.step();
  }
  progress.end();
  const run: CheckRun = { files: examined, troubles, partsAs: options.as };
  streams.out.write(report(run, options, streams));
  sayTroubles(troubles, streams);
  if (troubles.length > 0) return exitCodes.trouble;
  const { error, warning } = tallyOf(examined);
  return error > 0 || warning > options.maxWarnings ? exitCodes.findings : exitCodes.clean;
}

function report(run: CheckRun, { format }: CheckOptions, streams: Streams): string {
  switch (format) {
    case 'json':
      return jsonReport(run);
    case 'sarif':
      return sarifReport(run, { cwd: streams.cwd, version });
    case 'github':
      return githubReport(run);
    case 'text':
      return run.files.length > 0 ? textReport(run, stylesFor(streams.out, streams.env)) : '';
  }
}
