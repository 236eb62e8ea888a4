import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { collectionOf, folderWith, isLeftAlone } from './collection-support.ts';
import { command, setwright } from './command.ts';

/** Whether a run as somebody else can be tried: the tool must be open to all. */
const mayBeSomebodyElse =
  process.getuid?.() === 0 && [command, tmpdir()].every((path) => isOpenToAll(path));

function isOpenToAll(path: string): boolean {
  const above = dirname(path);
  return (statSync(path).mode & 0o005) === 0o005 && (above === path || isOpenToAll(above));
}

/** As few as make it worth to start processes. */
const sets = collectionOf(36);

describe('a collection', () => {
  it('is large enough here for several processes', () => {
    // As examine-all.ts has it; with less, all of these tests would try one process alone.
    expect(Object.values(sets).join('').length).toBeGreaterThan(60_000);
  });

  it('is told the same by one process and by several, in whatever format', () => {
    const folder = folderWith(sets);
    for (const format of ['text', 'sarif']) {
      const run = (jobs: number) =>
        setwright(['check', 'sets', '--format', format, '--jobs', String(jobs)], { cwd: folder });
      const [one, three] = [run(1), run(3)];
      expect(one.status).toBe(1);
      expect(one.stderr).toBe('');
      expect(three).toEqual(one);
    }
  });

  it('is told in order, each file as by itself', () => {
    const folder = folderWith(sets);
    const all = JSON.parse(
      setwright(['check', 'sets', '--format', 'json'], { cwd: folder }).stdout,
    );
    expect(all.files.map(({ path }: { path: string }) => path)).toEqual(Object.keys(sets));
    for (const at of [0, 1, 17, 35]) {
      const { path } = all.files[at];
      const { stdout } = setwright(['check', path, '--format', 'json'], { cwd: folder });
      expect(JSON.parse(stdout).files).toEqual([all.files[at]]);
    }
  });

  it('is told the same from the cache, by whichever way it came there', () => {
    const folder = folderWith(sets);
    const run = (...more: string[]) => setwright(['check', 'sets', ...more], { cwd: folder });
    const fresh = run();
    expect(run('--cache', '.setwright-cache', '--jobs', '2')).toEqual(fresh);
    expect(run('--cache', '.setwright-cache')).toEqual(fresh);
    writeFileSync(join(folder, 'sets/00007.receiver'), sets['sets/00008.receiver'] ?? '');
    expect(run('--cache', '.setwright-cache')).toEqual(run());
  });

  it('uses patterns that lie beside it', () => {
    const tubes = `tube type 01-A "as the museum measured it" {
  filament 5 V 0.25 A
  amplification 8
}
`;
    const folder = folderWith({ 'sets/lib/tubes.receiver': tubes });
    for (const [name, text] of Object.entries(sets))
      writeFileSync(join(folder, name), `use "lib/tubes.receiver"\n${text}`);
    const run = (...more: string[]) =>
      setwright(['check', 'sets', '--format', 'json', ...more], { cwd: folder });
    const kept = run('--cache', 'kept');
    expect(run('--cache', 'kept')).toEqual(kept);
    writeFileSync(join(folder, 'sets/lib/tubes.receiver'), tubes.replace('5 V', '3 V'));
    const changed = run('--cache', 'kept');
    expect(changed).toEqual(run());
    expect(changed).not.toEqual(kept);
  });

  it('has what cannot be read told at the end, and the rest goes on', () => {
    const folder = folderWith({ ...sets, 'sets/binary.receiver': Uint8Array.of(65, 0, 66) });
    symlinkSync('round.receiver', join(folder, 'sets/round.receiver'));
    symlinkSync('..', join(folder, 'sets/up'));
    const run = setwright(['check', 'sets', 'sets/round.receiver'], { cwd: folder });
    expect(run.status).toBe(2);
    expect(run.stderr).toContain('binary.receiver: it is no text: there is a zero byte on line 1.');
    expect(run.stderr).toContain('round.receiver: its links lead round in a circle.');
    expect(run.stdout).toContain('in 36 files');
  });

  it.skipIf(!mayBeSomebodyElse)('has a folder that may not be read told of', () => {
    const folder = folderWith({ 'sets/a.receiver': '', 'sets/locked/b.receiver': '' });
    chmodSync(folder, 0o755);
    chmodSync(join(folder, 'sets/locked'), 0o700);
    // As somebody else: who may do everything may read it.
    const nobody = { uid: 65534, gid: 65534 };
    const { status, stdout, stderr } = setwright(['check', 'sets'], { cwd: folder, ...nobody });
    expect([status, stderr]).toEqual([
      2,
      'setwright: sets/locked: it may not be read. Give yourself leave to read it.\n',
    ]);
    expect(stdout).toContain('in 1 file');
  });

  it('may be left by its reader without complaint, and nobody goes on working', async () => {
    const folder = folderWith(sets);
    const { stdout, stderr } = spawnSync(
      'sh',
      ['-c', '"$0" "$1" check sets --format json | head -n 1', process.execPath, command],
      { cwd: folder, encoding: 'utf8' },
    );
    expect([stdout, stderr]).toEqual(['{\n', '']);
    expect(await isLeftAlone(folder)).toBe(true);
  });
});

/**
 * Slips of the tool that no set is known to bring about: put into it by a file that Node loads
 * first, where a worker is handed a set of that name.
 */
const slips = `
const parse = JSON.parse;
const slips = {
  'crash.receiver': () => process.kill(process.pid, 'SIGKILL'),
  'memory.receiver': () => { const all = []; for (;;) all.push(new Array(1e6).fill(0).map((_, at) => ({ at }))); },
  'throws.receiver': () => { throw new Error('a slip'); },
};
if (process.argv.includes('--work-for-another'))
  JSON.parse = (text) => {
    const value = parse(text);
    if (value?.kind !== 'check') return value;
    const slip = slips[value.path.split('/').at(-1)];
    if (!slip) return value;
    if (value.path.endsWith('throws.receiver')) return { ...value, get text() { return slip(); } };
    slip();
  };
`;

describe('a file that the tool breaks down over', () => {
  const names = ['crash', 'memory', 'throws'];

  it('is named, and all others are checked', async () => {
    const [text = ''] = Object.values(sets).slice(5);
    const bad = Object.fromEntries(names.map((name) => [`sets/0-${name}/${name}.receiver`, text]));
    const folder = folderWith({ ...sets, ...bad, 'slips.cjs': slips });
    const run = setwright(['check', 'sets', '--format', 'json', '--jobs', '2'], {
      cwd: folder,
      env: {
        ...process.env,
        NODE_OPTIONS: `--require ${join(folder, 'slips.cjs')} --max-old-space-size=120`,
      },
    });
    const { files, unreadable } = JSON.parse(run.stdout);
    const causes = Object.fromEntries(
      unreadable.map(({ path, cause }: { path: string; cause: string }) => [
        path.split('/').at(-1)?.replace('.receiver', ''),
        cause,
      ]),
    );
    expect(causes).toEqual({
      crash: 'the tool had to give it up (SIGKILL)',
      memory: 'the tool had to give it up (it takes too much memory)',
      throws: 'something went wrong inside the tool (a slip)',
    });
    expect(files.map(({ path }: { path: string }) => path)).toEqual(Object.keys(sets));
    expect(run.status).toBe(2);
    for (const name of names) expect(run.stderr).toContain(`${name}.receiver: `);
    expect(await isLeftAlone(folder)).toBe(true);
  });

  it('is checked where it was asked when no process can be started', () => {
    const folder = folderWith({
      ...sets,
      'none.cjs': `if (process.argv.includes('--work-for-another')) process.exit(3);`,
    });
    const run = setwright(['check', 'sets', '--format', 'json'], {
      cwd: folder,
      env: { ...process.env, NODE_OPTIONS: `--require ${join(folder, 'none.cjs')}` },
    });
    expect(run).toEqual(setwright(['check', 'sets', '--format', 'json'], { cwd: folder }));
  });
});

describe('a run that is stopped', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)(
    'by %s tells what was done, whole, and leaves nobody behind',
    async (signal) => {
      const folder = folderWith(collectionOf(400));
      const run = spawn(process.execPath, [command, 'check', 'sets', '--format', 'json'], {
        cwd: folder,
      });
      let [out, err] = ['', ''];
      run.stderr.setEncoding('utf8').on('data', (more: string) => {
        err += more;
      });
      run.stdout.setEncoding('utf8').on('data', (more: string) => {
        // The first results are there: stop.
        if (out.length < 2000 && out.length + more.length >= 2000) run.kill(signal);
        out += more;
      });
      const code = await new Promise((resolve) => run.on('close', resolve));
      expect(code).toBe(130);
      const { files, unreadable, summary } = JSON.parse(out);
      expect(files.length).toBeGreaterThan(0);
      expect(files.length).toBeLessThan(400);
      expect(summary.files).toBe(files.length);
      expect(unreadable[0].cause).toBe(`it was stopped after ${files.length} of 400 files`);
      expect(err).toContain(`it was stopped after ${files.length} of 400 files`);
      expect(await isLeftAlone(folder)).toBe(true);
    },
  );
});

describe('a run that is killed', () => {
  it('leaves nobody working for it', async () => {
    const folder = folderWith(collectionOf(400));
    const run = spawn(process.execPath, [command, 'check', 'sets', '--format', 'json'], {
      cwd: folder,
      env: { ...process.env, NODE_OPTIONS: '--no-warnings' },
    });
    // With options for Node it is the tool itself that is started, and so that is killed.
    run.stdout.once('data', () => run.kill('SIGKILL'));
    await new Promise((resolve) => run.on('close', resolve));
    expect(await isLeftAlone(folder)).toBe(true);
  });
});

describe('where the tool may write', () => {
  const text = readFileSync(join(import.meta.dirname, '../../examples/crystal.receiver'), 'utf8');
  const draw = (folder: string, output: string) =>
    setwright(['draw', 'a.receiver', '-o', output], { cwd: folder });

  it('is no folder, no device and no read-only file', () => {
    const folder = folderWith({ 'a.receiver': text, 'kept.svg': 'kept' });
    mkdirSync(join(folder, 'folder.svg'));
    symlinkSync('/dev/null', join(folder, 'device.svg'));
    spawnSync('chmod', ['444', join(folder, 'kept.svg')]);
    for (const [output, words] of [
      ['folder.svg', 'it is a folder'],
      ['device.svg', 'it is a device or a pipe, and no file'],
      ['kept.svg', 'it is read-only'],
      ['none/a.svg', 'there is no such folder'],
    ] as const) {
      const { status, stderr } = draw(folder, output);
      expect([status, stderr]).toEqual([
        2,
        `setwright: ${output} cannot be written: ${words}. Name another place for it.\n`,
      ]);
    }
    expect(readFileSync(join(folder, 'kept.svg'), 'utf8')).toBe('kept');
  });

  it('is not the set itself, by whatever name', () => {
    const folder = folderWith({ 'a.receiver': text });
    symlinkSync('a.receiver', join(folder, 'soft.svg'));
    spawnSync('ln', ['a.receiver', 'hard.svg'], { cwd: folder });
    for (const output of ['soft.svg', 'hard.svg']) {
      const { status, stderr } = draw(folder, output);
      expect([status, stderr]).toEqual([2, expect.stringContaining('is the set itself')]);
    }
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(text);
  });
});
