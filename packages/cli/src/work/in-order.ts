import { type Answered, type Crew, crewOf, type StartWorker } from './crew.ts';

/** Work on many items, which may be done here or by other processes. */
export interface Trade<Item, Job, Result> {
  /** What an item comes to at once, or the work that it makes; `effort` in whatever unit. */
  begin(item: Item): { readonly done: Result } | { readonly job: Job; readonly effort: number };
  /** Does the work in this process. */
  here(job: Job): Result | Promise<Result>;
  /** What another process answered, or why there is no answer. */
  took(job: Job, answer: { readonly answer: unknown } | { readonly lost: string }): Result;
}

/** How several processes share work. */
export interface Sharing {
  readonly start: StartWorker;
  /** At most so many. */
  readonly jobs: number;
  /** A job that takes longer is given up. */
  readonly secondsEach: number;
  /** No process is started for less work than this, in the unit of `effort`. */
  readonly worthHelp: number;
  /** Looked at between items: whether the run was stopped. */
  readonly isStopped: () => boolean;
  /** Takes what is to be called when the run is stopped. */
  readonly onStop: (dismiss: () => void) => void;
}

/** So many items may be read ahead of the one that is told next: enough to bridge a slow one. */
const MOST_AHEAD = 256;

/** The event loop has its turn this often, in milliseconds, or no signal would be heard. */
const TURN_EVERY = 20;

/**
 * Does the work of many items by several processes, and gives what becomes of them in their order.
 * Processes are started when there is enough for them that is not done at once; less is done here.
 * Ends early when the run is stopped.
 */
export async function* workInOrder<Item, Job, Result>(
  items: Iterable<Item>,
  trade: Trade<Item, Job, Result>,
  sharing: Sharing,
): AsyncGenerator<Result> {
  interface InWork {
    readonly begun: ReturnType<typeof trade.begin>;
    answer: Promise<Answered> | undefined;
  }
  let crew: Crew<Job> | undefined;
  sharing.onStop(() => crew?.dismiss());
  const ahead: InWork[] = [];
  let waiting = 0;
  let turn = performance.now();

  /** Asks for help with what waits, once it is worth it. */
  const share = (latest: InWork): void => {
    if (!('job' in latest.begun)) return;
    waiting += latest.begun.effort;
    if (!crew && waiting < sharing.worthHelp) return;
    crew ??= crewOf(sharing.jobs, sharing.start, sharing.secondsEach);
    for (const each of ahead) if ('job' in each.begun) each.answer ??= crew.ask(each.begun.job);
  };

  /** What becomes of the next item; undefined when there is none or the run was stopped. */
  const next = async (): Promise<{ readonly result: Result } | undefined> => {
    if (performance.now() - turn > TURN_EVERY) {
      await new Promise((resolve) => setImmediate(resolve));
      turn = performance.now();
    }
    const first = ahead.shift();
    if (!first || sharing.isStopped()) return undefined;
    const { begun, answer } = first;
    if ('done' in begun) return { result: begun.done };
    const answered = await answer;
    if (answered && 'dismissed' in answered) return undefined;
    if (!answered || 'nobody' in answered) {
      waiting -= begun.effort;
      return { result: await trade.here(begun.job) };
    }
    return { result: trade.took(begun.job, answered) };
  };

  try {
    for (const item of items) {
      const inWork: InWork = { begun: trade.begin(item), answer: undefined };
      ahead.push(inWork);
      share(inWork);
      if (ahead.length < MOST_AHEAD) continue;
      const outcome = await next();
      if (!outcome) return;
      yield outcome.result;
    }
    for (let outcome = await next(); outcome; outcome = await next()) yield outcome.result;
  } finally {
    crew?.dismiss();
  }
}
