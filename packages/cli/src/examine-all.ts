import type { EntryCache } from './cache/entries.ts';
import type { FileExamined } from './examine.ts';
import { readSource } from './read-source.ts';
import type { Source, Trouble } from './sources.ts';
import { type Sharing, workInOrder } from './work/in-order.ts';
import {
  type Answer,
  type Examining,
  examined,
  givenUp,
  type Job,
  toolFailed,
} from './work/job.ts';
import { type Parcel, parcelOf, unpacked } from './work/parcel.ts';
import type { UsedOnce } from './work/used-once.ts';

/** What becomes of one input. */
export type Outcome = FileExamined | Trouble;

export interface ExaminingAll extends Examining {
  readonly cache: EntryCache<Parcel> | undefined;
  readonly used: UsedOnce;
}

/** Examines files one after the other in this process. */
export function* examineHere(sources: Iterable<Source>, how: ExaminingAll): Generator<Outcome> {
  for (const source of sources) {
    const begun = begin(source, how);
    yield 'job' in begun ? examineNow(begun.job, how) : begun.done;
  }
}

/** Examines files by several processes, and gives what becomes of them in their order. */
export const examineTogether = (
  sources: Iterable<Source>,
  how: ExaminingAll,
  sharing: Omit<Sharing, 'worthHelp'>,
): AsyncGenerator<Outcome> =>
  workInOrder(
    sources,
    {
      begin: (source) => begin(source, how),
      here: (job) => examineNow(job, how),
      took: (job, answered) => took(job, answered, how),
    },
    { ...sharing, worthHelp: WORTH_HELP },
  );

/**
 * What examining costs is counted in bytes of text that is checked quickly. A process of its own
 * takes as long to start as some 15,000 take to check.
 */
const WORTH_HELP = 60_000;
const THOROUGH = 4;

const effortOf = (bytes: number, thorough: boolean): number => bytes * (thorough ? THOROUGH : 1);

/** Whether files are so large together that other processes may be asked for help. */
export function mayNeedHelp(bytes: number, { thorough }: Examining): boolean {
  return effortOf(bytes, thorough) >= WORTH_HELP;
}

type Begun = { readonly done: Outcome } | { readonly job: Job; readonly effort: number };

/** What can be said of a file without examining it, or the work that it makes. */
function begin(source: Source, { partsAs, thorough, cache, used }: ExaminingAll): Begun {
  const read = readSource(source);
  if ('cause' in read) return { done: read };
  const { path } = source;
  const { text } = read;
  const parcel = cache?.find(path, text);
  return parcel
    ? { done: unpacked(path, text, parcel, used) }
    : {
        job: { kind: 'check', path, text, partsAs, thorough },
        effort: effortOf(text.length, thorough),
      };
}

function examineNow(job: Job, { cache, used }: ExaminingAll): Outcome {
  const outcome = examined(job, used);
  if (!('cause' in outcome)) cache?.keep(job.path, job.text, parcelOf(outcome, used));
  return outcome;
}

function took(
  { path, text }: Job,
  answered: { readonly answer: unknown } | { readonly lost: string },
  { cache, used }: ExaminingAll,
): Outcome {
  if ('lost' in answered) return givenUp(path, answered.lost);
  const answer = answered.answer as Answer;
  if ('failed' in answer) return toolFailed(path, answer.failed);
  cache?.keep(path, text, answer.parcel);
  return unpacked(path, text, answer.parcel, used);
}
