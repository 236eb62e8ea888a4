import { spawn } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { type Answered, crewOf, type StartWorker } from '../src/work/crew.ts';

/** A worker that answers every job with the job itself, but for a few words. */
const worker = `
const { readSync, writeSync } = require('node:fs');
const act = {
  die: () => process.kill(process.pid, 'SIGKILL'),
  leave: () => process.exit(7),
  endless: () => { for (;;); },
  garble: () => writeSync(1, '{"half\\n'),
  memory: () => { writeSync(2, 'FATAL ERROR: heap out of memory\\n'); process.abort(); },
};
writeSync(1, 'ready\\n');
const chunk = Buffer.alloc(65536);
let text = '';
for (;;) {
  const length = readSync(0, chunk);
  if (length === 0) process.exit(0);
  text += chunk.toString('utf8', 0, length);
  const lines = text.split('\\n');
  text = lines.pop();
  for (const line of lines) {
    const job = JSON.parse(line);
    if (act[job]) act[job]();
    else writeSync(1, line + '\\n');
  }
}
`;
const start: StartWorker = () => spawn(process.execPath, ['-e', worker], { stdio: 'pipe' });

/** Hands out all jobs at once, and waits for what becomes of them. */
async function answersTo(jobs: readonly string[], crew = crewOf<string>(2, start, 60)) {
  try {
    return await Promise.all(jobs.map((job) => crew.ask(job)));
  } finally {
    crew.dismiss();
  }
}
const answered = (...jobs: string[]): Answered[] => jobs.map((answer) => ({ answer }));

describe('a crew of processes', () => {
  it('answers every job', async () => {
    const jobs = Array.from({ length: 50 }, (_, at) => `set ${at} Ω\u2028`);
    expect(await answersTo(jobs)).toEqual(answered(...jobs));
  });

  it('takes a job of any size', async () => {
    const job = 'x'.repeat(3_000_000);
    const [first] = await answersTo([job]);
    // Not by toEqual, which would print it all.
    expect(first && 'answer' in first && first.answer === job).toBe(true);
  });

  it('loses the job that a process ends over, and no other', async () => {
    expect(await answersTo(['a', 'die', 'b', 'leave', 'c'])).toEqual([
      ...answered('a'),
      { lost: 'SIGKILL' },
      ...answered('b'),
      { lost: 'exit code 7' },
      ...answered('c'),
    ]);
  });

  it('says where it was for want of memory', async () => {
    expect(await answersTo(['memory'])).toEqual([{ lost: 'it takes too much memory' }]);
  });

  it('takes no garbled answer', async () => {
    expect(await answersTo(['garble', 'a'])).toEqual([
      { lost: 'its answer was garbled' },
      ...answered('a'),
    ]);
  });

  it('gives up a job that takes too long', async () => {
    const crew = crewOf<string>(1, start, 2);
    expect(await answersTo(['a', 'endless', 'b'], crew)).toEqual([
      ...answered('a'),
      { lost: 'it took longer than 2 seconds' },
      ...answered('b'),
    ]);
  });

  it('says when nobody can be started', async () => {
    const nobody = [{ nobody: true }, { nobody: true }];
    const missing: StartWorker = () => spawn('/no/such/program', [], { stdio: 'pipe' });
    const leaving: StartWorker = () => spawn(process.execPath, ['-e', ''], { stdio: 'pipe' });
    const throwing: StartWorker = () => {
      throw new Error('no more processes');
    };
    for (const each of [missing, leaving, throwing])
      expect(await answersTo(['a', 'b'], crewOf(2, each, 60))).toEqual(nobody);
  });

  it('goes home when it is dismissed, whatever it is at', async () => {
    const crew = crewOf<string>(2, start, 60);
    // Two in each hand, so that nobody comes to the last.
    const jobs = [...Array.from({ length: 4 }, () => 'endless'), 'a'];
    const asked = Promise.all(jobs.map((job) => crew.ask(job)));
    setTimeout(() => crew.dismiss(), 300);
    expect(await asked).toEqual(jobs.map(() => ({ dismissed: true })));
    expect(await crew.ask('b')).toEqual({ dismissed: true });
  });
});
