import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith } from './collection-support.ts';
import { command, examples } from './command.ts';

const collection = join(examples, 'collection');
const workflow = readFileSync(join(collection, '.github/workflows/sets.yml'), 'utf8');

/** The commands of a workflow by the names of their steps, as far as this one needs it read. */
function stepsOf(text: string): ReadonlyMap<string, string> {
  const steps = new Map<string, string>();
  for (const step of text.split(/^ {6}- /m).slice(1)) {
    const name = /^name: (.*)$/m.exec(step)?.[1];
    const run = /^ {8}run: (.*)$/m.exec(step)?.[1];
    if (name && run) steps.set(name, run);
  }
  return steps;
}
const steps = stepsOf(workflow);

const git = (cwd: string, ...args: string[]) =>
  spawnSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@lantern.invalid', ...args], {
    cwd,
    encoding: 'utf8',
  });

/** A repository with the collection committed on its branch `main`, and the tool beside. */
function repository(): string {
  const folder = folderWith({});
  cpSync(collection, folder, { recursive: true });
  symlinkSync(dirname(command), join(folder, 'tools/setwright'));
  writeFileSync(join(folder, '.gitignore'), 'tools/setwright\n');
  git(folder, 'init', '--quiet', '--initial-branch=main');
  commit(folder, 'The collection');
  git(folder, 'checkout', '--quiet', '-b', 'request');
  return folder;
}

function commit(folder: string, message: string): void {
  git(folder, 'add', '--all');
  const { status, stderr } = git(folder, 'commit', '--quiet', '--message', message);
  expect([status, stderr]).toEqual([0, '']);
}

/** Runs a step as a runner does. */
function step(folder: string, name: string, env: Record<string, string> = {}) {
  const run = steps.get(name);
  if (run === undefined) throw new Error(`there is no step "${name}"`);
  const { status, stdout, stderr } = spawnSync('bash', ['-e', '-o', 'pipefail', '-c', run], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, SETWRIGHT: 'tools/setwright/setwright.cjs', BASE: 'main', ...env },
  });
  return { status, stdout, stderr };
}

const change = (folder: string, name: string, from: string, to: string) => {
  const file = join(folder, name);
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
};
const comparison = (folder: string) => {
  const { status, stderr } = step(folder, 'What this request changes');
  expect([status, stderr]).toEqual([0, '']);
  return readFileSync(join(folder, 'comparison.md'), 'utf8');
};

describe('the workflow of the example collection', () => {
  it('has its steps, and puts no word of a request into a command', () => {
    expect([...steps.keys()]).toEqual([
      'What is wrong with the sets',
      'Whether the texts are in order',
      'What this request changes',
      'Tell it on the request',
    ]);
    for (const run of steps.values()) expect(run).not.toContain('${{');
  });

  it('finds nothing against the collection as it is', () => {
    const folder = repository();
    expect(step(folder, 'What is wrong with the sets')).toMatchObject({ status: 0, stderr: '' });
    expect(step(folder, 'Whether the texts are in order').status).toBe(0);
    expect(comparison(folder)).toBe('');
  });

  it('marks a fault at its line, and a text that is not in order', () => {
    const folder = repository();
    change(folder, 'sets/slipway.receiver', 'from V1.grid to A+', 'from V1.grid to A-');
    change(folder, 'sets/buoy.receiver', '  year', '      year');
    const { status, stdout } = step(folder, 'What is wrong with the sets');
    expect([status, stdout]).toEqual([
      1,
      expect.stringMatching(/^::(?:warning|error) file=sets\/slipway\.receiver,line=\d+,/m),
    ]);
    expect(step(folder, 'Whether the texts are in order')).toMatchObject({
      status: 1,
      stdout: 'sets/buoy.receiver\n',
    });
  });

  it('tells what changed in a set, which is new and which is gone, whatever they are called', () => {
    const folder = repository();
    change(folder, 'sets/slipway.receiver', 'from V1.grid to A+', 'from V1.grid to A-');
    const hostile = 'sets/$(touch pwned) `x` <b>\n.receiver';
    cpSync(join(folder, 'sets/buoy.receiver'), join(folder, hostile));
    rmSync(join(folder, 'sets/buoy.receiver'));
    commit(folder, 'A change');
    const told = comparison(folder);
    expect(told).toMatch(/^### .*sets\/slipway\.receiver/m);
    expect(told).toMatch(/^### .*sets\/buoy\.receiver/m);
    expect(told).not.toContain('chandlery');
    expect(told).not.toContain('<b>');
    expect(git(folder, 'status', '--porcelain').stdout).toBe('?? comparison.md\n');
    expect(git(folder, 'worktree', 'list').stdout.trim().split('\n')).toHaveLength(1);
  });

  it('tells of every set that a change of the common parts reaches', () => {
    const folder = repository();
    change(folder, 'parts/common.receiver', '2 meg', '5 meg');
    commit(folder, 'A larger leak');
    const told = comparison(folder);
    expect(told).toMatch(/^### .*sets\/slipway\.receiver/m);
    expect(told).toMatch(/^### .*sets\/chandlery\.receiver/m);
    expect(told).not.toContain('buoy');
  });
});

describe('the comment on a request', () => {
  interface Asked {
    readonly method: string | undefined;
    readonly url: string | undefined;
    readonly body: string;
  }
  /** Posts a text to a host that has these comments, and gives what it was asked. */
  async function posted(text: string, comments: unknown[], mayWrite = true) {
    const folder = folderWith({ 'comparison.md': text, 'summary.md': '' });
    mkdirSync(join(folder, 'tools'));
    cpSync(join(collection, 'tools'), join(folder, 'tools'), { recursive: true });
    const asked: Asked[] = [];
    const server = createServer((request, response) => {
      let body = '';
      request.on('data', (more) => {
        body += more;
      });
      request.on('end', () => {
        asked.push({ method: request.method, url: request.url, body });
        const isRead = request.method === 'GET';
        response.statusCode = isRead || mayWrite ? 200 : 403;
        response.end(JSON.stringify(isRead ? comments : { id: 1 }));
      });
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const run = spawn('bash', ['-e', '-c', steps.get('Tell it on the request') ?? 'false'], {
      cwd: folder,
      env: {
        ...process.env,
        TOKEN: 'secret',
        REQUEST: '7',
        GITHUB_API_URL: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
        GITHUB_REPOSITORY: 'lantern/cove',
        GITHUB_STEP_SUMMARY: join(folder, 'summary.md'),
      },
    });
    const code = await new Promise((resolve) => run.on('close', resolve));
    server.close();
    expect(code).toBe(0);
    const written = asked.filter(({ method }) => method !== 'GET');
    return { written, summary: readFileSync(join(folder, 'summary.md'), 'utf8') };
  }

  it('is a new one first, and the same one afterwards', async () => {
    const first = await posted('### a set\n', []);
    expect(first.written).toMatchObject([
      { method: 'POST', url: '/repos/lantern/cove/issues/7/comments' },
    ]);
    const { body } = JSON.parse(first.written[0]?.body ?? '');
    expect(body).toContain('### a set');
    const second = await posted('### another\n', [
      { id: 3, body, user: { type: 'User' } },
      { id: 4, body, user: { type: 'Bot' } },
    ]);
    expect(second.written).toMatchObject([
      { method: 'PATCH', url: '/repos/lantern/cove/issues/comments/4' },
    ]);
  });

  it('says so where nothing changed', async () => {
    const { written, summary } = await posted('', []);
    expect(JSON.parse(written[0]?.body ?? '').body).toContain('No set is changed');
    expect(summary).toContain('No set is changed');
  });

  it('is not too long for the host', async () => {
    const { written, summary } = await posted('- a line of words\n'.repeat(8000), []);
    expect(JSON.parse(written[0]?.body ?? '').body.length).toBeLessThan(65_536);
    expect(summary.length).toBeGreaterThan(100_000);
  });

  it('is left out where there is no leave to write', async () => {
    const { summary } = await posted('### a set\n', [], false);
    expect(summary).toContain('### a set');
  });
});
