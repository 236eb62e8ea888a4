import { spawn, spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { command, examples, setwright, withFile } from './command.ts';

const five = join(examples, 'five-tube-trf.receiver');
const fiveText = readFileSync(five, 'utf8');
const faulty = fiveText.replace('from V3.grid to A+', 'from V3.grid to A++');
const faultyLine = faulty.slice(0, faulty.indexOf('A++')).split('\n').length;

describe('the command as built', () => {
  it('tells its version', () => {
    const { version } = JSON.parse(readFileSync(join(examples, '../package.json'), 'utf8'));
    expect(setwright(['--version'])).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
  });

  it('prints its help', () => {
    expect(setwright(['--help'])).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('setwright check my-set.receiver'),
    });
  });

  it.each(readdirSync(examples).filter((name) => name.endsWith('.receiver')))(
    'finds nothing wrong with %s',
    (name) => {
      const { status, stdout, stderr } = setwright(['check', join(examples, name)]);
      expect([status, stderr, stdout]).toEqual([
        0,
        '',
        expect.stringMatching(
          /0 errors, 0 warnings.* in 1 file\n.*: (?:B cannot reach|there is no)/,
        ),
      ]);
    },
  );

  it('answers 1 for a faulty set', () => {
    withFile(faulty, (file) => {
      const { status, stdout } = setwright(['check', file]);
      expect([status, stdout]).toEqual([1, expect.stringContaining('[unknown-name]')]);
    });
  });

  it('answers 2 for a file that is not there, without a stack trace', () => {
    const { status, stdout, stderr } = setwright(['check', 'nothing.receiver']);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^setwright: nothing\.receiver: there is no such file\. .*\n$/);
  });

  it('answers 2 for a wrong call', () => {
    expect(setwright(['check', '--bogus'])).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("unknown option '--bogus'"),
    });
  });

  it('traces the bias of a detector grid', () => {
    const { status, stdout } = setwright(['trace', five, 'V3.grid']);
    expect([status, stdout]).toEqual([0, expect.stringMatching(/1\. R3 .*\n.*A, from A\+ to A-/)]);
  });

  it('explains a check', () => {
    expect(setwright(['explain', 'battery-reversed'])).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/^battery-reversed\n/),
    });
  });
});

describe('standard input and output', () => {
  it('is read when no file is named, and when - is', () => {
    for (const args of [['check'], ['check', '-']]) {
      const { status, stdout } = setwright(args, { input: faulty });
      expect([status, stdout]).toEqual([1, expect.stringContaining(`<stdin>:${faultyLine}:`)]);
    }
  });

  it('that holds nothing is no sound set', () => {
    expect(setwright(['check'], { input: '' })).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('nothing was sent to standard input'),
    });
  });

  it('takes a text and gives it back in order', () => {
    const messy = fiveText.replaceAll('\n  ', '\n     ');
    expect(setwright(['format'], { input: messy })).toEqual({
      status: 0,
      stdout: fiveText,
      stderr: '',
    });
  });

  it('is written whole, however much there is', () => {
    const lines = Array.from({ length: 4000 }, (_, index) => `  post A${index} @@`);
    const { stdout } = setwright(['check', '--format', 'json'], {
      input: `receiver "x" {\n${lines.join('\n')}\n}\n`,
    });
    expect(stdout.length).toBeGreaterThan(1_000_000);
    expect(JSON.parse(stdout).files[0].findings).toHaveLength(4000);
  });

  it('may be left by its reader without complaint', () => {
    const run = spawnSync(
      'sh',
      [
        '-c',
        '"$0" "$1" check examples examples examples --format json | head -n 1',
        process.execPath,
        command,
      ],
      { cwd: join(examples, '..'), encoding: 'utf8' },
    );
    expect([run.stdout, run.stderr]).toEqual(['{\n', '']);
  });
});

describe('the two ways to start', () => {
  it('give the same', () => {
    withFile(faulty, (file) => {
      const args = ['check', file, '--format', 'json'];
      const quick = setwright(args);
      // Options for Node mean that the picture cannot be used.
      const plain = setwright(args, { env: { ...process.env, NODE_OPTIONS: '--no-warnings' } });
      expect(quick).toEqual(plain);
    });
  });

  it('look at the call, the folder and the environment when they start, not when they were built', () => {
    withFile(faulty, (_, folder) => {
      expect(setwright(['check', 'set.receiver'], { cwd: folder }).stdout).toContain(
        `set.receiver:${faultyLine}:`,
      );
    });
  });
});

describe('a signal', () => {
  it('ends the tool and whatever it started', async () => {
    const child = spawn(process.execPath, [command, 'check', '-'], {
      stdio: ['pipe', 'pipe', 'pipe'],
    });
    const closed = new Promise<NodeJS.Signals | null>((resolve) => {
      // Output closes only when nobody is left who could write to it.
      child.on('close', (_, signal) => resolve(signal));
    });
    await new Promise((resolve) => setTimeout(resolve, 500));
    child.kill('SIGTERM');
    expect(await closed).toBe('SIGTERM');
  });
});
