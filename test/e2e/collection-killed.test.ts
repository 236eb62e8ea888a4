import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { chanceOf } from '../support/random/chance.ts';
import { collectionOf, folderWith } from './collection-support.ts';
import { command, examples, setwright } from './command.ts';

const seed = Number(process.env.SETWRIGHT_SEED ?? Date.now() % 1_000_000);

/** Runs a call many times and kills all of its processes at a moment by chance in each. */
async function killedOften(cwd: string, args: readonly string[], runs: number, after: () => void) {
  const chance = chanceOf(seed);
  const whole = performance.now();
  await ended(cwd, args, undefined);
  // From before it has begun to after it is done.
  const longest = (performance.now() - whole) * 1.1;
  let killed = 0;
  for (let run = 0; run < runs; run += 1) {
    if (await ended(cwd, args, chance.below(longest))) killed += 1;
    after();
  }
  // Otherwise nothing was tried.
  expect(killed).toBeGreaterThan(0);
}

/** Whether it was killed; it is, with whatever it started, after so many milliseconds. */
function ended(cwd: string, args: readonly string[], after: number | undefined): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [command, ...args], {
      cwd,
      stdio: 'ignore',
      // A group of its own, which can be killed as one.
      detached: true,
    });
    const timer =
      after === undefined
        ? undefined
        : setTimeout(() => child.pid !== undefined && process.kill(-child.pid, 'SIGKILL'), after);
    child.on('close', (_, signal) => {
      clearTimeout(timer);
      resolve(signal === 'SIGKILL');
    });
  });
}

const textOf = (file: string) => (existsSync(file) ? readFileSync(file, 'utf8') : undefined);
const isLeftover = (name: string) => /^\.setwright-\d+-[0-9a-f]{12}\.tmp$/.test(name);

describe(`what a run that is killed leaves behind (seed ${seed})`, () => {
  it('is a whole drawing or none', async () => {
    const text = readFileSync(join(examples, 'crystal.receiver'), 'utf8');
    const folder = folderWith({ 'a.receiver': text });
    const args = ['draw', 'a.receiver', '-o', 'a.svg'];
    setwright(args, { cwd: folder });
    const drawing = textOf(join(folder, 'a.svg'));
    rmSync(join(folder, 'a.svg'));
    await killedOften(folder, args, 12, () => {
      expect([undefined, drawing]).toContain(textOf(join(folder, 'a.svg')));
      rmSync(join(folder, 'a.svg'), { force: true });
      for (const name of readdirSync(folder))
        expect(name === 'a.receiver' || isLeftover(name)).toBe(true);
    });
  });

  it('is a cache that answers rightly', async () => {
    const folder = folderWith(collectionOf(40, seed));
    const args = ['check', 'sets', '--format', 'json', '--jobs', '2'];
    const rightly = setwright(args, { cwd: folder });
    const kept = join(folder, 'kept');
    await killedOften(folder, [...args, '--cache', 'kept'], 10, () => {
      const entries = existsSync(kept) ? readdirSync(kept) : [];
      for (const name of entries.filter((each) => /^[0-9a-f]{64}$/.test(each))) {
        const [hash, ...body] = readFileSync(join(kept, name), 'utf8').split('\n');
        expect(createHash('sha256').update(body.join('\n')).digest('hex')).toBe(hash);
      }
      // Half of what is kept goes, so that every run has something to keep.
      for (const name of entries.filter((_, at) => at % 2 === 0))
        if (name !== 'CACHEDIR.TAG') rmSync(join(kept, name), { force: true });
    });
    expect(setwright([...args, '--cache', 'kept'], { cwd: folder })).toEqual(rightly);
  });

  it('is pages that are whole, and an index whose links lead to them', async () => {
    const crystal = readFileSync(join(examples, 'crystal.receiver'), 'utf8');
    const sets = Object.fromEntries(
      ['a', 'b', 'c', 'd'].map((name) => [
        `sets/${name}.receiver`,
        crystal.replace(/receiver "[^"]*"/, `receiver "${name}"`),
      ]),
    );
    const folder = folderWith(sets);
    const call = (site: string) => ['report', '--collection', 'sets', '-o', site];
    setwright(call('expected'), { cwd: folder });
    const expected = (name: string) => textOf(join(folder, 'expected', name));
    await killedOften(folder, call('site'), 8, () => {
      const pages = existsSync(join(folder, 'site/sets'))
        ? readdirSync(join(folder, 'site/sets')).filter((name) => !isLeftover(name))
        : [];
      for (const name of pages)
        expect(textOf(join(folder, 'site/sets', name))).toBe(expected(`sets/${name}`));
      const index = textOf(join(folder, 'site/index.html'));
      if (index !== undefined) {
        expect(index).toBe(expected('index.html'));
        expect(pages).toHaveLength(4);
      }
      rmSync(join(folder, 'site'), { recursive: true, force: true });
    });
  });
});
