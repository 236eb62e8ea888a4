import { readSync, writeSync } from 'node:fs';
import type { Draughtsman } from '../draw.ts';
import { answerTo, type Job, reasonOf } from './job.ts';
import { type SheetJob, sheetsMade } from './sheet-job.ts';
import { type UsedOnce, usedOnce } from './used-once.ts';

/** The word that makes a process of the tool a worker of another. */
export const workerWord = '--work-for-another';

/** What a worker says first, when it is ready to be given work. */
export const readyLine = 'ready';

const LF = 0x0a;

/**
 * Works for the process that started this one until that closes standard input: each line there is
 * a job, each line on standard output its answer, in the same order, as JSON.
 */
export async function work(draughtsman: Draughtsman): Promise<void> {
  // Whoever stops the run stops the process that started this one, which ends it.
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => {});
  const used = usedOnce(process.cwd());
  say(readyLine);
  for (const line of linesOf(0)) {
    const job = JSON.parse(line) as Job | SheetJob;
    const answer =
      job.kind === 'check' ? answerTo(job, used) : await sheets(job, used, draughtsman);
    say(JSON.stringify(answer));
  }
  process.exit(0);
}

async function sheets(job: SheetJob, used: UsedOnce, draughtsman: Draughtsman) {
  try {
    return await sheetsMade(job, used, draughtsman);
  } catch (error) {
    return { failed: reasonOf(error) };
  }
}

function* linesOf(descriptor: number): Generator<string> {
  const chunk = Buffer.allocUnsafe(64 * 1024);
  let parts: Buffer[] = [];
  for (;;) {
    const length = readSync(descriptor, chunk);
    if (length === 0) return;
    let from = 0;
    for (let at = chunk.indexOf(LF); at >= 0 && at < length; at = chunk.indexOf(LF, from)) {
      yield Buffer.concat([...parts, chunk.subarray(from, at)]).toString('utf8');
      parts = [];
      from = at + 1;
    }
    if (from < length) parts.push(Buffer.from(chunk.subarray(from, length)));
  }
}

function say(line: string): void {
  const bytes = Buffer.from(`${line}\n`, 'utf8');
  for (let at = 0; at < bytes.length; ) at += writeSync(1, bytes, at);
}
