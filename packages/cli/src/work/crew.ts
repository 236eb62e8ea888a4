import type { ChildProcess } from 'node:child_process';
import { readyLine } from './worker.ts';

/** Starts a process that works for this one: see worker.ts. */
export type StartWorker = () => ChildProcess;

/** What becomes of a job: an answer, or why there is none. */
export type Answered =
  | { readonly answer: unknown }
  /** The process that did it ended over it. */
  | { readonly lost: string }
  /** No process can be started here: the job must be done where it was asked. */
  | { readonly nobody: true }
  /** The crew was sent home. */
  | { readonly dismissed: true };

/** Processes that do jobs side by side. */
export interface Crew<Job> {
  /** Never rejects. Jobs are begun in the order in which they are asked. */
  ask(job: Job): Promise<Answered>;
  /** Ends all processes at once, whatever they are at. */
  dismiss(): void;
}

interface Asked {
  readonly job: unknown;
  readonly settle: (answer: Answered) => void;
}

interface Worker {
  readonly child: ChildProcess;
  isReady: boolean;
  /** Handed over and not yet answered; the first is being done. */
  readonly inHand: Asked[];
  /** When the first of those in hand was begun. */
  since: number;
  /** Why it was ended from here. */
  endedFor: string | undefined;
}

/** Jobs that a worker has in hand: one at work, one so that it need not wait for the next. */
const MOST_IN_HAND = 2;

/** How often it is looked whether a job takes too long, in milliseconds. */
const LOOK_EVERY = 200;

/** After so many starts in a row of which none came to work, no more are tried. */
const MOST_FAILED_STARTS = 3;

/** What a process says of running out of memory stands among its last words. */
const LAST_WORDS = 4000;

/**
 * A crew of at most `size` processes, each started when there is work for it. A job that takes
 * longer than `secondsEach`, or that a process dies of, is lost; the others go on.
 */
export function crewOf<Job>(size: number, start: StartWorker, secondsEach: number): Crew<Job> {
  const queue: Asked[] = [];
  const workers = new Set<Worker>();
  let failedStarts = 0;
  let isDismissed = false;

  const watch = setInterval(() => {
    const now = performance.now();
    for (const worker of workers) {
      if (worker.inHand.length === 0 || worker.endedFor !== undefined) continue;
      if (now - worker.since < secondsEach * 1000) continue;
      worker.endedFor = `it took longer than ${secondsEach} seconds`;
      worker.child.kill('SIGKILL');
    }
  }, LOOK_EVERY);

  /** Hands out what is asked, as far as there are hands. */
  function handOut(): void {
    for (const worker of workers) if (worker.isReady) giveTo(worker);
    const coming = [...workers].filter(({ isReady }) => !isReady).length;
    const wanted = Math.min(size - workers.size, Math.ceil(queue.length / 2) - coming);
    for (let more = 0; more < wanted; more += 1) hire();
  }

  function giveTo(worker: Worker): void {
    while (worker.inHand.length < MOST_IN_HAND && worker.endedFor === undefined) {
      const asked = queue.shift();
      if (!asked) return;
      if (worker.inHand.length === 0) worker.since = performance.now();
      worker.inHand.push(asked);
      worker.child.stdin?.write(`${JSON.stringify(asked.job)}\n`);
    }
  }

  function hire(): void {
    let child: ChildProcess;
    try {
      child = start();
    } catch {
      startFailed();
      return;
    }
    const worker: Worker = { child, isReady: false, inHand: [], since: 0, endedFor: undefined };
    workers.add(worker);
    let isGone = false;
    let lastWords = '';
    const gone = (how: string): void => {
      if (isGone) return;
      isGone = true;
      workers.delete(worker);
      leave(worker, causeOf(worker, how, lastWords));
    };
    // What cannot be handed over is lost with the process, which tells of it.
    child.stdin?.on('error', () => {});
    child.stderr?.setEncoding('utf8').on('data', (words: string) => {
      lastWords = (lastWords + words).slice(-LAST_WORDS);
    });
    onLines(child, (line) => hear(worker, line));
    child.on('error', () => gone('it could not be started'));
    child.on('close', (code, signal) => gone(signal ?? `exit code ${code}`));
  }

  function hear(worker: Worker, line: string): void {
    if (!worker.isReady) {
      worker.isReady = line === readyLine;
      failedStarts = 0;
      handOut();
      return;
    }
    const asked = worker.inHand.shift();
    worker.since = performance.now();
    asked?.settle(answerIn(line));
    handOut();
  }

  /** A process is no more: the first job in its hand is lost, the others are for the next. */
  function leave(worker: Worker, cause: string): void {
    if (isDismissed) return;
    if (!worker.isReady) {
      startFailed();
      return;
    }
    const [lost, ...others] = worker.inHand;
    queue.unshift(...others);
    lost?.settle({ lost: cause });
    handOut();
  }

  function startFailed(): void {
    failedStarts += 1;
    if (failedStarts < MOST_FAILED_STARTS) handOut();
    else if (workers.size === 0) for (const { settle } of queue.splice(0)) settle({ nobody: true });
  }

  return {
    ask: (job) =>
      new Promise((settle) => {
        if (isDismissed) settle({ dismissed: true });
        else if (failedStarts >= MOST_FAILED_STARTS && workers.size === 0) settle({ nobody: true });
        else {
          queue.push({ job, settle });
          handOut();
        }
      }),
    dismiss: () => {
      isDismissed = true;
      clearInterval(watch);
      const left = [...queue.splice(0), ...[...workers].flatMap(({ inHand }) => inHand)];
      for (const { child } of workers) child.kill('SIGKILL');
      for (const { settle } of left) settle({ dismissed: true });
    },
  };
}

function onLines(child: ChildProcess, hear: (line: string) => void): void {
  let parts: string[] = [];
  child.stdout?.setEncoding('utf8').on('data', (chunk: string) => {
    const [first = '', ...others] = chunk.split('\n');
    parts.push(first);
    for (const other of others) {
      hear(parts.join(''));
      parts = [other];
    }
  });
}

function answerIn(line: string): Answered {
  try {
    return { answer: JSON.parse(line) };
  } catch {
    return { lost: 'its answer was garbled' };
  }
}

function causeOf({ endedFor }: Worker, how: string, lastWords: string): string {
  if (endedFor !== undefined) return endedFor;
  return /out of memory|allocation failed/i.test(lastWords) ? 'it takes too much memory' : how;
}
