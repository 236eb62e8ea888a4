import { createHash } from 'node:crypto';
import { statSync } from 'node:fs';
import { basename, relative, resolve, sep } from 'node:path';
import { type CollectionEntry, collectionPage, counted } from '@setwright/report';
import type { EntryCache } from './cache/entries.ts';
import { openedCache, sayCacheTrouble } from './cache/opened.ts';
import { areKeptPages, type KeptPages } from './cache/valid.ts';
import type { Help } from './check.ts';
import type { Draughtsman } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { progressOn } from './progress.ts';
import { readSource } from './read-source.ts';
import { openSite, pageHash, pageName, pagesFolder, type Site } from './site.ts';
import { findSources, type Source, type Trouble } from './sources.ts';
import { stopping } from './stopping.ts';
import type { Streams } from './streams.ts';
import { sayTroubles, sayWrong } from './troubles.ts';
import { version } from './version.ts';
import { workInOrder } from './work/in-order.ts';
import { givenUp, reasonOf, toolFailed } from './work/job.ts';
import { type SheetJob, type SheetsMade, sheetsMade } from './work/sheet-job.ts';
import { usedOnce } from './work/used-once.ts';
import { whyNotWritten } from './write-whole.ts';

export interface CollectionOptions {
  /** The folder that is written to. */
  readonly output: string | undefined;
  readonly symbols: SheetJob['symbols'];
  readonly units: SheetJob['units'];
  /** Processes that work side by side; undefined: as many as there are processor cores. */
  readonly jobs?: number | undefined;
  /** Seconds after which a file is given up; undefined: as is usual. */
  readonly timeLimit?: number | undefined;
  /** Where it is kept from run to run what is made already: a folder. */
  readonly cache?: string | false | undefined;
}

/** Seconds after which a file is given up: a page usually takes one or two. */
const PATIENCE = 300;

/** Fewer files than this are done here. */
const WORTH_HELP = 3;

/** What becomes of one file. */
type Outcome =
  | { readonly made: SheetsMade; readonly job: SheetJob }
  | { readonly kept: KeptPages; readonly shown: string }
  | { readonly trouble: Trouble };

/**
 * `setwright report --collection`: a page for every set of a folder, and an index of them. A page
 * that is as it was is not written again; pages of sets that are gone are taken away.
 */
export async function collection(
  folder: string,
  options: CollectionOptions,
  streams: Streams,
  draughtsman: Draughtsman,
  help: Help,
): Promise<ExitCode> {
  const { sources, troubles } = findSources([folder], streams.cwd);
  if (sources.length === 0) {
    sayTroubles(troubles, streams);
    return exitCodes.trouble;
  }
  const site = siteFor(options.output, streams);
  const used = usedOnce(streams.cwd);
  const made = ['sheets', options.symbols, options.units];
  const cache = openedCache(options.cache, made, areKeptPages, used, streams);
  if (!site || cache === 'refused') return exitCodes.trouble;
  const base = baseOf(resolve(streams.cwd, folder));
  const progress = progressOn(streams.err, sources.length);
  const index = indexing(site, cache);
  const { isStopped, onStop, release } = stopping();
  const outcomes = workInOrder<Source, SheetJob, Outcome>(
    sources,
    {
      begin: (source) => begin(source, shownIn(base, source), options, cache, site),
      here: async (job) => {
        try {
          return { made: await sheetsMade(job, used, draughtsman), job };
        } catch (error) {
          return { trouble: toolFailed(job.shown, reasonOf(error)) };
        }
      },
      took: (job, answered) => {
        if ('lost' in answered) return { trouble: givenUp(job.shown, answered.lost) };
        const answer = answered.answer as SheetsMade | { readonly failed: string };
        return 'failed' in answer
          ? { trouble: toolFailed(job.shown, answer.failed) }
          : { made: answer, job };
      },
    },
    {
      start: help.start,
      jobs: options.jobs ?? help.cores(),
      secondsEach: options.timeLimit ?? PATIENCE,
      worthHelp: WORTH_HELP,
      isStopped,
      onStop,
    },
  );
  let done = 0;
  try {
    for await (const outcome of outcomes) {
      index.add(outcome);
      done += 1;
      progress.step();
    }
    if (!isStopped()) index.write(basename(base));
  } catch (error) {
    // Only what cannot be written comes here.
    progress.end();
    sayWrong(
      streams,
      `${options.output ?? ''} cannot be written to: ${reasonOf(error)}.`,
      'Name another folder for the pages.',
    );
    return exitCodes.trouble;
  } finally {
    release();
    progress.end();
    cache?.close();
    sayCacheTrouble(cache, streams);
  }
  if (isStopped()) {
    sayWrong(
      streams,
      `It was stopped after ${done} of ${counted(sources.length, 'file')}.`,
      'The pages of those are whole; the index is as it was.',
    );
    return exitCodes.stopped;
  }
  sayTroubles(index.troubles, streams);
  return index.troubles.length > 0 ? exitCodes.trouble : exitCodes.clean;
}

function siteFor(output: string | undefined, streams: Streams): Site | undefined {
  if (output === undefined) {
    sayWrong(
      streams,
      'The pages of a collection need a folder of their own.',
      'Say where, as in: -o site',
    );
    return undefined;
  }
  try {
    return openSite(resolve(streams.cwd, output));
  } catch (error) {
    sayWrong(
      streams,
      `${output} cannot be the folder of the pages: ${whyNotWritten(error)}.`,
      'Name another, as in: -o site',
    );
    return undefined;
  }
}

/** The folder of the collection, of which its title is the name. */
const baseOf = (folder: string): string =>
  statSync(folder, { throwIfNoEntry: false })?.isDirectory() ? folder : resolve(folder, '..');

/** A file as it is called on the index: seen from the folder of the collection. */
const shownIn = (base: string, { path, file }: Source): string =>
  file === undefined ? path : relative(base, file).split(sep).join('/');

type Begun = { readonly done: Outcome } | { readonly job: SheetJob; readonly effort: number };

function begin(
  source: Source,
  shown: string,
  { symbols, units }: CollectionOptions,
  cache: EntryCache<KeptPages> | undefined,
  site: Site,
): Begun {
  const read = readSource(source);
  if ('cause' in read) return { done: { trouble: { ...read, path: shown } } };
  const { path } = source;
  const { text } = read;
  const kept = cache?.find(path, text);
  const isThere = kept?.pages.every(({ hash }, at) => site.hasPage(pageName(shown, at), hash));
  return kept && isThere
    ? { done: { kept, shown } }
    : { job: { kind: 'sheets', path, shown, text, symbols, units }, effort: 1 };
}

/** Writes pages as they come, and the index when all have. */
function indexing(site: Site, cache: EntryCache<KeptPages> | undefined) {
  const entries: CollectionEntry[] = [];
  const troubles: Trouble[] = [];
  const without: string[] = [];
  const pages = new Set<string>();
  const addRows = (shown: string, rows: readonly KeptPages['pages'][number]['row'][]): void => {
    if (rows.length === 0) without.push(shown);
    for (const [at, row] of rows.entries()) {
      const name = pageName(shown, at);
      pages.add(name);
      entries.push({ ...row, path: shown, href: `${pagesFolder}/${name}` });
    }
  };
  return {
    troubles,
    add: (outcome: Outcome): void => {
      if ('trouble' in outcome) troubles.push(outcome.trouble);
      else if ('kept' in outcome)
        addRows(
          outcome.shown,
          outcome.kept.pages.map(({ row }) => row),
        );
      else {
        const { job, made } = outcome;
        for (const [at, { text }] of made.pages.entries())
          site.writePage(pageName(job.shown, at), text);
        const kept = made.pages.map(({ row, text }) => ({ row, hash: pageHash(text) }));
        cache?.keep(job.path, job.text, { uses: made.uses, pages: kept });
        addRows(
          job.shown,
          made.pages.map(({ row }) => row),
        );
      }
    },
    write: (title: string): void => {
      const digest = (text: string): string => createHash('sha256').update(text).digest('base64');
      const madeBy = `Made by setwright ${version}.`;
      const page = collectionPage({ title, entries, unread: troubles, without, madeBy }, digest);
      site.writeIndex(page, pages);
    },
  };
}
