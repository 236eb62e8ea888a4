import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CompareCommandOptions, compare } from '../src/compare.ts';
import * as drawing from '../src/drawing.ts';
import { folderWith, runIn, sound } from './support.ts';

const plain: CompareCommandOptions = {
  format: 'text',
  units: 'period',
  numbers: false,
  as: undefined,
  drawing: false,
  output: undefined,
  theme: 'light',
  symbols: 'modern',
};

const other = sound.replace('100 kilohms', '50 kilohms');
const usual = { 'old.receiver': sound, 'new.receiver': other };

/** Compares files of a folder in this process. */
async function compareIn(
  files: Readonly<Record<string, string | Uint8Array>>,
  words: readonly string[] = ['old.receiver', 'new.receiver'],
  options: Partial<CompareCommandOptions> = {},
  env: NodeJS.ProcessEnv = {},
) {
  const cwd = folderWith(files);
  const written = { out: '', err: '' };
  const writing = (where: 'out' | 'err') => ({
    write: (text: string) => {
      written[where] += text;
    },
  });
  const streams = { out: writing('out'), err: writing('err'), env, cwd, inIsSilent: true };
  const code = await compare(words, { ...plain, ...options }, streams, () => drawing);
  return { ...written, code, cwd };
}

describe('the answer to the shell', () => {
  it('is 0 for the same set, however it is written', async () => {
    const again = sound.replace('100 kilohms', '.1 meg').replace('  wire A- to B-\n', '');
    const { code, out } = await compareIn({
      'old.receiver': sound,
      'new.receiver': again.replace(
        'battery B',
        '// hand of another\n  wire B- to A-\n  battery B',
      ),
    });
    expect(out).toBe('No difference: the sets are the same, however they are written.\n');
    expect(code).toBe(0);
  });

  it('is 1 for a difference', async () => {
    const { code, out } = await compareIn(usual);
    expect(out).toContain('- R2 is 50 kilohms now, and was 100 kilohms.');
    expect(code).toBe(1);
  });

  it.each([
    ['a file that is not there', ['old.receiver', 'none.receiver'], 'there is no such file'],
    ['one file alone', ['old.receiver'], 'compare takes two files'],
    ['three files', ['old.receiver', 'new.receiver', 'old.receiver'], 'compare takes two files'],
    ['files without a set', ['empty.txt', 'empty.txt'], 'There is no receiver in empty.txt'],
  ])('is 2 for %s', async (_, words, said) => {
    const { code, out, err } = await compareIn({ ...usual, 'empty.txt': '// nothing\n' }, words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(said);
  });
});

describe('a file that was not there', () => {
  it('makes a set new, and the other way about gone', async () => {
    const fresh = await compareIn(usual, ['/dev/null', 'new.receiver']);
    expect([fresh.code, fresh.out]).toEqual([1, expect.stringContaining('Sound: this set is new')]);
    const gone = await compareIn(usual, ['old.receiver', '/dev/null']);
    expect([gone.code, gone.out]).toEqual([1, expect.stringContaining('Sound: this set is gone')]);
  });

  it('may be an empty one', async () => {
    const { code } = await compareIn({ ...usual, 'old.receiver': '' });
    expect(code).toBe(1);
  });

  it('on both sides is no difference', async () => {
    expect((await compareIn({}, ['/dev/null', '/dev/null'])).code).toBe(0);
  });
});

describe('a call by git', () => {
  const seven = [
    'sets/a.receiver',
    'old.receiver',
    'aaa',
    '100644',
    'new.receiver',
    'bbb',
    '100644',
  ];

  it('begins with the file and answers 0 for a difference', async () => {
    const { code, out } = await compareIn(usual, seven);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe('sets/a.receiver');
    expect(out).toContain('50 kilohms');
  });

  it('tells of a new name of the file', async () => {
    const { code, out } = await compareIn(usual, [
      ...seven,
      'sets/b.receiver',
      'similarity 90 %\n',
    ]);
    expect([code, out.split('\n')[0]]).toEqual([0, 'sets/a.receiver to sets/b.receiver']);
  });

  it('with a file that is no text says so among the others, and answers 0', async () => {
    const zero = new Uint8Array([1, 0, 2]);
    const { code, out, err } = await compareIn({ ...usual, 'new.receiver': zero }, seven);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('sets/a.receiver cannot be compared: it is no text');
  });

  it('for a file that is not merged says so', async () => {
    const git = { GIT_DIFF_PATH_COUNTER: '1', GIT_DIFF_PATH_TOTAL: '1' };
    const { code, out } = await compareIn(usual, ['sets/a.receiver'], {}, git);
    expect([code, out]).toEqual([
      0,
      'sets/a.receiver is not merged: there are not two to compare.\n',
    ]);
  });
});

describe('texts that cannot be read in full', () => {
  it('are compared by the lines that can, with a caution that names the others', async () => {
    const garbled = other.replace('resistor R1 4 ohms', 'resistor R1 4 ( ohms');
    const { code, out } = await compareIn({ ...usual, 'new.receiver': garbled });
    expect(code).toBe(1);
    expect(out).toMatch(/^Caution: new\.receiver: line 5 cannot be read in full\./);
    expect(out).toContain('50 kilohms');
  });

  it('of any kind are no breakdown', async () => {
    for (const text of ['}}}}', 'receiver', '{{{', sound.slice(0, 200)]) {
      const { code } = await compareIn({ ...usual, 'new.receiver': text });
      expect([1, 2]).toContain(code);
    }
  });
});

describe('the forms it is told in', () => {
  it('Markdown begins with the file, under the name that is given', async () => {
    const { out } = await compareIn(usual, undefined, {
      format: 'markdown',
      as: 'sets/a.receiver',
    });
    expect(out.split('\n')[0]).toBe('### sets/a.receiver');
    expect(out).toContain('- R2 is 50 kilohms now, and was 100 kilohms.');
  });

  it('JSON is whole', async () => {
    const { out } = await compareIn(usual, undefined, { format: 'json', numbers: true });
    const report = JSON.parse(out);
    expect(report).toMatchObject({ version: 1, same: false });
    expect(report.receivers[0].numbers).toBeInstanceOf(Array);
  });

  it('numbers stand there where they are wanted', async () => {
    const files = { ...usual, 'new.receiver': sound.replace('tap A+ 6 V', 'tap A+ 4 V') };
    expect((await compareIn(files, undefined, { numbers: true })).out).toContain('filament volts');
    expect((await compareIn(files)).out).not.toContain('filament volts');
  });
});

describe('the drawing', () => {
  it('marks what has changed, on one drawing of both states', async () => {
    const files = {
      ...usual,
      'new.receiver': other.replace('  phones P1 2000 ohms from V1.plate to B+45\n', ''),
    };
    const { code, cwd } = await compareIn(files, undefined, { output: 'change.svg' });
    expect(code).toBe(1);
    const svg = readFileSync(join(cwd, 'change.svg'), 'utf8');
    expect(svg).toContain('data-mark="changed"');
    expect(svg).toContain('data-mark="removed"');
    expect(svg).toContain('data-part="P1"');
  });

  it('goes to standard output in place of words where no file is named', async () => {
    const { out } = await compareIn(usual, undefined, { drawing: true });
    expect(out).toMatch(/^<svg /);
    expect(out).not.toContain('No difference');
  });

  it('is never written over a set', async () => {
    const { code, err, cwd } = await compareIn(usual, undefined, { output: 'new.receiver' });
    expect(code).toBe(2);
    expect(err).toContain('no name for a drawing');
    expect(readFileSync(join(cwd, 'new.receiver'), 'utf8')).toBe(other);
  });

  it('paints a PNG', async () => {
    const { cwd } = await compareIn(usual, undefined, { output: 'change.png' });
    expect(existsSync(join(cwd, 'change.png'))).toBe(true);
  });
});

describe('setwright describe', () => {
  it('writes one line a fact, the same for two hands', () => {
    const again = sound.replace('100 kilohms', '.1 meg');
    const cwd = folderWith({ 'a.receiver': sound, 'b.receiver': again });
    const [one, two] = ['a', 'b'].map((name) => runIn(cwd, ['describe', `${name}.receiver`]));
    expect(one?.code).toBe(0);
    expect(one?.out).toContain('R2  resistance  0.1 megohms\n');
    expect(one?.out).toContain('R2.start  joined to  V1.grid\n');
    expect(two?.out).toBe(one?.out);
  });

  it('keeps what cannot be read as it is written', () => {
    const cwd = folderWith({ 'a.receiver': sound.replace('resistor R1', '?? R1') });
    expect(runIn(cwd, ['describe', 'a.receiver']).out).toMatch(/^not read {2}"\?\? R1/m);
  });

  it('of a file that is not there answers 2', () => {
    expect(runIn(folderWith({}), ['describe', 'a.receiver']).code).toBe(2);
  });
});
