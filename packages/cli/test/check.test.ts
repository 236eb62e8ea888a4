import { describe, expect, it } from 'vitest';
import { deadly, folderWith, runIn, sound } from './support.ts';

/** Two mistakes of reading: an unknown name, and a size that is most likely a slip. */
const faulty = sound
  .replace('from V1.grid to V1.filament-', 'from V1.grid to V7.filament-')
  .replace('100 kilohms', '100 kilohms "leak"');
const slip = sound.replace(
  '  phones',
  '  condenser C1 250 mfd from V1.plate to V1.filament-\n  phones',
);
const garbled = sound.replace('wire A- to B-', 'wire A- to @@');

describe('the exit code of check', () => {
  const codeFor = (text: string, ...more: string[]) =>
    runIn(folderWith({ 'set.receiver': text }), ['check', 'set.receiver', ...more]).code;

  it('is 0 for a sound set', () => expect(codeFor(sound)).toBe(0));
  it('is 1 for an error', () => expect(codeFor(faulty)).toBe(1));
  it('is 1 for a warning', () => expect(codeFor(slip)).toBe(1));
  it('is 0 for as many warnings as may be left', () =>
    expect(codeFor(slip, '--max-warnings', '2')).toBe(0));
  it('is 1 for an error, however many warnings may be left', () =>
    expect(codeFor(faulty, '--max-warnings', '99')).toBe(1));
  it('is 2 for a format that does not exist', () =>
    expect(codeFor(sound, '--format', 'xml')).toBe(2));
  it('is 2 for a number that is none', () =>
    expect(codeFor(sound, '--max-warnings', '-1')).toBe(2));
});

describe('the text of check', () => {
  const linesFor = (text: string) =>
    runIn(folderWith({ 'set.receiver': text }), ['check', 'set.receiver']).out.split('\n');

  it('gives path, line, column, severity and check, and marks the very words', () => {
    const lines = linesFor(faulty);
    const at = lines.findIndex((line) => line.includes('[unknown-name]'));
    expect(lines[at]).toMatch(/^set\.receiver:6:50: error: .*V7.* \[unknown-name\]$/);
    const source = lines[at + 1]!;
    const mark = lines[at + 2]!;
    expect(source.slice(mark.indexOf('^'), mark.lastIndexOf('^') + 1)).toBe('V7.filament-');
    expect(lines.slice(at + 3, at + 5).map((line) => line.split(':')[0])).toEqual([
      '  why',
      '  cure',
    ]);
  });

  it('counts what there is', () => {
    expect(linesFor(sound).at(-3)).toMatch(/^0 errors, 0 warnings.* in 1 file$/);
  });

  it('ends with whether B can reach a filament', () => {
    expect(linesFor(sound).at(-2)).toBe(
      'Sound: B cannot reach a filament at any position of its switches, jacks or controls.',
    );
  });

  it('says loudly when B does reach a filament', () => {
    expect(linesFor(deadly).at(-2)).toBe(
      'Sound: B+45 CAN reach the filament of V1; it is wired straight to it: do not connect the B battery.',
    );
  });

  it('does not say that B is safe while a line cannot be read', () => {
    expect(linesFor(garbled).at(-2)).toBe(
      'Sound: it cannot be told whether B can reach a filament until line 4 is put right.',
    );
  });

  it('says which checks wait, and for which lines', () => {
    expect(linesFor(garbled).join('\n')).toMatch(
      /^set\.receiver: Sound: \d+ checks wait until line 4 is put right\.$/m,
    );
  });

  it('never gives a terminal what it would act on', () => {
    const { out } = runIn(
      folderWith({ 'set.receiver': deadly.replace('Sound', '\u001b]0;x\u0007\u202eevil\u009b2J') }),
      ['check', 'set.receiver'],
    );
    expect(out).toContain('\\x1b]0;x\\x07\\u{202e}evil\\x9b2J: B+45 CAN');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });

  it('is in color on a terminal only, and not against the wish of NO_COLOR', () => {
    const folder = folderWith({ 'set.receiver': faulty });
    const onTerminal = (env: Record<string, string>) => {
      let text = '';
      const out = {
        isTTY: true,
        write: (more: string) => {
          text += more;
        },
      };
      runIn(folder, ['check', 'set.receiver'], { out, env });
      return text.includes('\u001b[');
    };
    expect([onTerminal({}), onTerminal({ NO_COLOR: '1' }), onTerminal({ NO_COLOR: '' })]).toEqual([
      true,
      false,
      true,
    ]);
  });
});

describe('the sets as they were found', () => {
  const burnt = sound.replace('phones P1 2000 ohms', 'phones P1 2000 ohms found open');
  const checks = (...more: string[]) => {
    const folder = folderWith({ 'set.receiver': burnt });
    const { out } = runIn(folder, ['check', 'set.receiver', '--format', 'json', ...more]);
    return JSON.parse(out).files[0].findings.map(({ check }: { check: string }) => check);
  };

  it('have no feed through phones that were found open', () => {
    expect(checks()).not.toContain('plate-without-supply');
    expect(checks('--as', 'found')).toContain('plate-without-supply');
  });
});

describe('what check reads', () => {
  const paths = (folder: string, ...args: string[]) =>
    JSON.parse(runIn(folder, ['check', '--format', 'json', ...args]).out).files.map(
      ({ path }: { path: string }) => path,
    );
  const tree = {
    'b.receiver': sound,
    'a.receiver': sound,
    'sub/c.receiver': sound,
    'sub/notes.txt': 'no set',
    'node_modules/x/d.receiver': sound,
    '.hidden/e.receiver': sound,
    'odd [1].receiver': sound,
  };

  it('is every set below a folder, by name, but no hidden folder and no node_modules', () => {
    expect(paths(folderWith(tree), '.')).toEqual([
      'a.receiver',
      'b.receiver',
      'odd [1].receiver',
      'sub/c.receiver',
    ]);
  });

  it('is every file that a pattern names', () => {
    expect(paths(folderWith(tree), '*/*.receiver')).toEqual(['sub/c.receiver']);
  });

  it('is a file whose name looks like a pattern', () => {
    expect(paths(folderWith(tree), 'odd [1].receiver')).toEqual(['odd [1].receiver']);
  });

  it('is each file once, in the order of the call', () => {
    expect(paths(folderWith(tree), 'sub', 'b.receiver', '.')).toEqual([
      'sub/c.receiver',
      'b.receiver',
      'a.receiver',
      'odd [1].receiver',
    ]);
  });

  it('may begin with a mark of byte order, which no column counts', () => {
    const { out, code } = runIn(folderWith({ 'set.receiver': `\ufeffoops "x"\n${sound}` }), [
      'check',
      'set.receiver',
    ]);
    expect([code, out.split('\n')[0]?.startsWith('set.receiver:1:1: error')]).toEqual([1, true]);
  });
});

describe('what check cannot read', () => {
  const trouble = (files: Record<string, string | Uint8Array>, ...args: string[]) => {
    const { code, err } = runIn(folderWith(files), ['check', ...args]);
    return `${code} ${err.replace(/^setwright: /, '').trim()}`;
  };

  it.each<[string, Record<string, string | Uint8Array>, string, RegExp]>([
    ['a file that is not there', {}, 'no.receiver', /^2 no\.receiver: there is no such file\. /],
    ['a folder without sets', { 'a.txt': '' }, '.', /^2 .*: no set in this folder/],
    ['a pattern without a file', {}, '*.receiver', /^2 \*\.receiver: no file matches/],
    [
      'text of another encoding',
      { 'x.receiver': Uint8Array.from([0x61, 0x0a, 0xe9, 0x0a]) },
      'x.receiver',
      /^2 x\.receiver: it is not written in UTF-8: line 2 /,
    ],
    [
      'UTF-16',
      { 'x.receiver': Uint8Array.from([0xff, 0xfe, 0x61, 0]) },
      'x.receiver',
      /^2 x\.receiver: it is written in UTF-16\. Save it as UTF-8\./,
    ],
    [
      'no text at all',
      { 'x.receiver': Uint8Array.from([0x61, 0, 0x62]) },
      'x.receiver',
      /^2 x\.receiver: it is no text: there is a zero byte on line 1/,
    ],
    [
      'a file over 20 MB',
      { 'x.receiver': new Uint8Array(21 * 1024 * 1024).fill(0x20) },
      'x.receiver',
      /^2 x\.receiver: it is larger than 20 MB/,
    ],
  ])('%s: says why and what to do', (_, files, arg, said) => {
    expect(trouble(files, arg)).toMatch(said);
  });

  it('does not keep it from the other files', () => {
    const { code, out } = runIn(folderWith({ 'a.receiver': sound }), [
      'check',
      'no.receiver',
      'a.receiver',
    ]);
    expect([code, out]).toEqual([2, expect.stringContaining('Sound: B cannot reach')]);
  });

  it('is nothing at all: then the call was wrong', () => {
    const { code, err } = runIn(folderWith({}), ['check']);
    expect([code, err]).toEqual([2, expect.stringContaining('was not told what to read')]);
  });
});
