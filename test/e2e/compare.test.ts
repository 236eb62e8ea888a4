import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const tool = `"${process.execPath}" "${join(root, 'dist/setwright.cjs')}"`;
const five = readFileSync(join(root, 'examples/five-tube-trf.receiver'), 'utf8');

/** A real repository with one set, committed twice and then changed once more. */
let folder = '';

function git(args: readonly string[], env: Readonly<Record<string, string>> = {}) {
  return spawnSync('git', args, {
    cwd: folder,
    encoding: 'utf8',
    env: {
      ...process.env,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_NOSYSTEM: '1',
      GIT_AUTHOR_NAME: 'Lantern Cove',
      GIT_AUTHOR_EMAIL: 'museum@example.org',
      GIT_COMMITTER_NAME: 'Lantern Cove',
      GIT_COMMITTER_EMAIL: 'museum@example.org',
      GIT_PAGER: 'cat',
      ...env,
    },
  });
}

const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
const told = (...args: string[]) => {
  const { status, stdout, stderr } = git(args);
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-git-'));
  told('init', '--quiet', '--initial-branch', 'main');
  write('five.receiver', five);
  write('.gitattributes', '*.receiver diff=receiver\n');
  told('add', '.');
  told('commit', '--quiet', '--message', 'As found');
  write('five.receiver', five.replace('2 meg 30 %', '1 meg 30 %'));
  told('commit', '--quiet', '--all', '--message', 'A smaller leak');
  write('five.receiver', five.replace('2 meg 30 %', '3 meg 30 %'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const asCommand = ['-c', `diff.receiver.command=${tool} compare`];

describe('setwright compare as git’s external diff', () => {
  it('tells what has changed in the working tree', () => {
    const out = told(...asCommand, 'diff');
    expect(out.split('\n')[0]).toBe('five.receiver');
    expect(out).toContain('R3 (grid leak) is 3 meg now, and was 1 meg.');
  });

  it('tells what every commit changed', () => {
    const out = told(...asCommand, 'log', '--ext-diff', '--patch', '--format=%s');
    expect(out).toContain('R3 (grid leak) is 1 meg now, and was 2 meg.');
    expect(out).toContain('Lantern Cove Five: this set is new');
  });

  it('by its environment as well', () => {
    const { status, stdout } = git(['diff'], { GIT_EXTERNAL_DIFF: `${tool} compare --no-numbers` });
    expect(status).toBe(0);
    expect(stdout).toContain('R3 (grid leak) is 3 meg now, and was 1 meg.');
    expect(stdout).not.toContain('numbers');
  });

  it('says that there is no difference where only the hand is another', () => {
    const now = readFileSync(join(folder, 'five.receiver'), 'utf8');
    write('five.receiver', five.replace('2 meg 30 %', '1000 kilohms 30 %'));
    expect(told(...asCommand, 'diff')).toContain('No difference');
    write('five.receiver', now);
  });

  it('follows a file under a new name, and tells of files that come and go', () => {
    told('mv', '--force', 'five.receiver', 'six.receiver');
    expect(told(...asCommand, 'diff', '--cached', '--find-renames')).toMatch(
      /^five\.receiver to six\.receiver\n/,
    );
    const apart = told(...asCommand, 'diff', '--cached', '--no-renames');
    expect(apart).toContain('Lantern Cove Five: this set is gone');
    expect(apart).toContain('Lantern Cove Five: this set is new');
    told('mv', '--force', 'six.receiver', 'five.receiver');
  });
});

describe('setwright describe as git’s text conversion', () => {
  const asText = ['-c', `diff.receiver.textconv=${tool} describe`];

  it('shows the lines of what changed, and no other', () => {
    const out = told(...asText, 'diff', '--unified=0');
    const lines = out.split('\n').filter((line) => /^[-+](?![-+])/.test(line));
    expect(lines).toEqual(['-R3  resistance  1 megohm', '+R3  resistance  3 megohms']);
  });

  it('shows nothing where only the hand is another', () => {
    const now = readFileSync(join(folder, 'five.receiver'), 'utf8');
    write(
      'five.receiver',
      `// in another hand\n${five.replace('2 meg 30 %', '1000 kilohms 30 %')}`,
    );
    const out = told(...asText, 'diff', '--unified=0');
    expect(out.split('\n').filter((line) => /^[-+](?![-+])/.test(line))).toEqual([]);
    write('five.receiver', now);
  });
});

describe('setwright compare by itself', () => {
  it('answers 0, 1 and 2', () => {
    write('old.receiver', five);
    write('new.receiver', five.replace('2 meg 30 %', '3 meg 30 %'));
    const run = (...args: string[]) =>
      spawnSync(process.execPath, [join(root, 'dist/setwright.cjs'), 'compare', ...args], {
        cwd: folder,
        encoding: 'utf8',
      });
    expect(run('old.receiver', 'old.receiver').status).toBe(0);
    const differing = run('old.receiver', 'new.receiver', '-o', 'change.png');
    expect([differing.status, differing.stderr]).toEqual([1, '']);
    expect(readFileSync(join(folder, 'change.png')).subarray(1, 4).toString()).toBe('PNG');
    expect(run('old.receiver', 'none.receiver').status).toBe(2);
  });
});
