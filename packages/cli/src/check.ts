import { statSync } from 'node:fs';
import { counted } from '@setwright/report';
import type { EntryCache } from './cache/entries.ts';
import { openedCache, sayCacheTrouble } from './cache/opened.ts';
import { isParcel } from './cache/valid.ts';
import { counting, type Telling } from './check-run.ts';
import type { PartsAs } from './examine.ts';
import {
  type ExaminingAll,
  examineHere,
  examineTogether,
  mayNeedHelp,
  type Outcome,
} from './examine-all.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { inputsOf } from './inputs.ts';
import { progressOn } from './progress.ts';
import { githubTelling } from './report-github.ts';
import { jsonTelling } from './report-json.ts';
import { sarifTelling } from './report-sarif.ts';
import { textTelling } from './report-text.ts';
import { type Shard, shareOf } from './shard.ts';
import type { Source, Trouble } from './sources.ts';
import { stopping } from './stopping.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayTroubles } from './troubles.ts';
import { version } from './version.ts';
import type { StartWorker } from './work/crew.ts';
import type { Parcel } from './work/parcel.ts';
import { usedOnce } from './work/used-once.ts';

export const checkFormats = ['text', 'json', 'sarif', 'github'] as const;

export interface CheckOptions {
  readonly format: (typeof checkFormats)[number];
  /** Warnings that may be left before they count as findings. */
  readonly maxWarnings: number;
  readonly as: PartsAs;
  /** Whether the checks that take long are run too. */
  readonly thorough: boolean;
  /** Processes that work side by side; undefined: as many as there are processor cores. */
  readonly jobs: number | undefined;
  /** Seconds after which a file of a collection is given up; undefined: as is usual. */
  readonly timeLimit: number | undefined;
  /** The part of the files that this run is to take; undefined: all. */
  readonly shard: Shard | undefined;
  /** Where results are kept from run to run: a folder. */
  readonly cache: string | false | undefined;
}

/** Seconds after which a file is given up: usually a set takes some hundredths of one. */
const PATIENCE = { quick: 60, thorough: 600 } as const;

/** How other processes are started, and how many are of use: left out where there can be none. */
export interface Help {
  readonly start: StartWorker;
  readonly cores: () => number;
}

/**
 * `setwright check`: tells what is wrong with sets, and whether B can reach a filament. A few files
 * are checked at once; a collection by several processes, so that the answer comes later.
 */
export function check(
  files: readonly string[],
  options: CheckOptions,
  streams: Streams,
  help?: Help,
): ExitCode | Promise<ExitCode> {
  const inputs = inputsOf(files, 'check', streams);
  if (!inputs) return exitCodes.trouble;
  const used = usedOnce(streams.cwd);
  const made = ['check', options.as, String(options.thorough)];
  const cache = openedCache(options.cache, made, isParcel, used, streams);
  if (cache === 'refused') return exitCodes.trouble;
  const { shard } = options;
  const sources = shard ? shareOf(inputs.sources, shard) : inputs.sources;
  const told = tellingAll(sources.length, inputs.troubles, options, streams, cache);
  const how = { partsAs: options.as, thorough: options.thorough, cache, used };
  if (help && sources.length > 1 && mayNeedHelp(bytesOf(sources), how))
    return together(sources, options, how, help, told);
  for (const outcome of examineHere(sources, how)) told.add(outcome);
  return told.end(false);
}

async function together(
  sources: readonly Source[],
  { jobs, timeLimit, thorough }: CheckOptions,
  how: ExaminingAll,
  { start, cores }: Help,
  told: ReturnType<typeof tellingAll>,
): Promise<ExitCode> {
  const { isStopped, onStop, release } = stopping();
  const outcomes = examineTogether(sources, how, {
    start,
    jobs: jobs ?? cores(),
    secondsEach: timeLimit ?? (thorough ? PATIENCE.thorough : PATIENCE.quick),
    isStopped,
    onStop,
  });
  try {
    for await (const outcome of outcomes) told.add(outcome);
    return told.end(isStopped());
  } finally {
    release();
  }
}

/** Tells of files as they come, and of the whole run at its end. */
function tellingAll(
  total: number,
  inputTroubles: readonly Trouble[],
  { format, as, maxWarnings }: CheckOptions,
  streams: Streams,
  cache: EntryCache<Parcel> | undefined,
) {
  const telling = tellingIn(format, as, streams);
  const progress = progressOn(streams.err, total);
  const troubles = [...inputTroubles];
  const count = counting();
  let done = 0;
  const write = (text: string): void => {
    if (text !== '') progress.aside(() => streams.out.write(text));
  };
  write(telling.head);
  return {
    add: (outcome: Outcome): void => {
      done += 1;
      if ('cause' in outcome) troubles.push(outcome);
      else {
        count.add(outcome);
        write(telling.file(outcome));
      }
      progress.step();
    },
    end: (isStopped: boolean): ExitCode => {
      progress.end();
      cache?.close();
      if (isStopped) troubles.push(stoppedAfter(done, total));
      const summary = count.summary();
      write(telling.end({ ...summary, troubles }));
      sayTroubles(troubles, streams);
      sayCacheTrouble(cache, streams);
      if (isStopped) return exitCodes.stopped;
      if (troubles.length > 0) return exitCodes.trouble;
      const { error, warning } = summary.tally;
      return error > 0 || warning > maxWarnings ? exitCodes.findings : exitCodes.clean;
    },
  };
}

const stoppedAfter = (done: number, total: number): Trouble => ({
  path: 'check',
  cause: `it was stopped after ${done} of ${counted(total, 'file')}`,
  cure: 'What is told of those is whole; the others were not checked.',
});

function tellingIn(format: CheckOptions['format'], partsAs: PartsAs, streams: Streams): Telling {
  switch (format) {
    case 'json':
      return jsonTelling(partsAs);
    case 'sarif':
      return sarifTelling({ cwd: streams.cwd, version });
    case 'github':
      return githubTelling;
    case 'text':
      return textTelling(partsAs, stylesFor(streams.out, streams.env));
  }
}

function bytesOf(sources: readonly Source[]): number {
  let bytes = 0;
  for (const { file } of sources) if (file !== undefined) bytes += sizeOf(file);
  return bytes;
}

function sizeOf(file: string): number {
  try {
    return statSync(file).size;
  } catch {
    // Why it cannot be read is told when it is.
    return 0;
  }
}
