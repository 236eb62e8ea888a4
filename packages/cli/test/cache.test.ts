import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type EntryCache, entryCache } from '../src/cache/entries.ts';
import { openCacheFolder } from '../src/cache/folder.ts';
import { isParcel } from '../src/cache/valid.ts';
import type { Parcel } from '../src/work/parcel.ts';
import { deadly, folderWith, runIn, sound } from './support.ts';

const isEntry = (name: string) => /^[0-9a-f]{64}$/.test(name);
const entries = (folder: string) => readdirSync(join(folder, 'kept')).filter(isEntry).sort();
const check = (folder: string, ...more: string[]) =>
  runIn(folder, ['check', '.', '--format', 'json', '--cache', 'kept', ...more]);

/** Writes into an entry what it never said, and makes its hash fit: a mark of being read. */
function forge(folder: string, change: (body: string) => string): void {
  for (const name of entries(folder)) {
    const file = join(folder, 'kept', name);
    const [, body = ''] = readFileSync(file, 'utf8').split('\n');
    const forged = change(body);
    const hash = createHash('sha256').update(forged).digest('hex');
    writeFileSync(file, `${hash}\n${forged}`);
  }
}
const pipeMaker = 'mkfifo';
const makePipe = (file: string) => execFileSync(pipeMaker, [file]);

/** Does something with the file of every entry. */
function each(folder: string, act: (file: string) => void): void {
  for (const name of entries(folder)) act(join(folder, 'kept', name));
}
const marked = (folder: string) => forge(folder, (body) => body.replaceAll('Sound', 'Kept'));

describe('the cache of results', () => {
  it('answers as checking would', () => {
    const folder = folderWith({ 'a.receiver': deadly, 'b.receiver': sound });
    const fresh = runIn(folder, ['check', '.', '--format', 'json']);
    expect(check(folder)).toEqual(fresh);
    expect(check(folder)).toEqual(fresh);
  });

  it('is asked before a file is checked again', () => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    marked(folder);
    expect(check(folder).out).toContain('"title": "Kept"');
  });

  it('is not asked where it was not named', () => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    marked(folder);
    expect(runIn(folder, ['check', '.', '--format', 'json']).out).not.toContain('Kept');
    expect(check(folder, '--no-cache').out).not.toContain('Kept');
  });

  it('serves all formats', () => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    marked(folder);
    const { out } = runIn(folder, ['check', '.', '--cache', 'kept']);
    expect(out).toContain('Kept: B cannot reach');
  });

  it.each<[string, (folder: string) => void, string[]]>([
    ['another text', (folder) => writeFileSync(join(folder, 'a.receiver'), `${sound}\n`), []],
    ['other checks', () => {}, ['--thorough']],
    ['parts as they were found', () => {}, ['--as', 'found']],
  ])('has nothing for %s', (_, change, more) => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    marked(folder);
    change(folder);
    expect(check(folder, ...more).out).not.toContain('Kept');
  });

  const tubes = 'tube type 01-A "of our own" { filament 5 V 0.25 A amplification 8 }\n';
  it('has nothing for a set of which a used file changed, came or went', () => {
    const folder = folderWith({
      'a.receiver': `use "lib/t.receiver"\n${sound}`,
      'lib/t.receiver': tubes,
    });
    const file = join(folder, 'lib/t.receiver');
    const isKept = () => {
      runIn(folder, ['check', 'a.receiver', '--cache', 'kept']);
      marked(folder);
      return () => runIn(folder, ['check', 'a.receiver', '--cache', 'kept']).out.includes('Kept');
    };
    const first = isKept();
    expect(first()).toBe(true);
    writeFileSync(file, tubes.replace('8', '9'));
    expect(first()).toBe(false);
    const second = isKept();
    rmSync(file);
    expect(second()).toBe(false);
    const third = isKept();
    writeFileSync(file, tubes);
    expect(third()).toBe(false);
  });
});

describe('a cache that is damaged or made to harm', () => {
  const damages: [string, (folder: string) => void][] = [
    ['cut off', (folder) => each(folder, (file) => truncateSync(file, 200))],
    ['emptied', (folder) => each(folder, (file) => truncateSync(file))],
    [
      'changed by a letter',
      (folder) => {
        for (const name of entries(folder)) {
          const file = join(folder, 'kept', name);
          writeFileSync(file, readFileSync(file, 'utf8').replace('Sound', 'Kept_'));
        }
      },
    ],
    ['no JSON', (folder) => forge(folder, () => 'Kept')],
    [
      'of another shape',
      (folder) => forge(folder, (body) => body.replace('"sets":[', '"sets":["Kept",')),
    ],
    [
      'of a severity that is none',
      (folder) => forge(folder, (body) => body.replaceAll('"error"', '"Kept"')),
    ],
    [
      'reaching for a prototype',
      (folder) => forge(folder, () => '{"__proto__":{"findings":[],"sets":[]}}'),
    ],
    [
      'of places that are none',
      (folder) => forge(folder, (body) => body.replaceAll(/"start":\d+/g, '"start":-1')),
    ],
    [
      'the entry of another',
      (folder) => {
        const [a = '', b = ''] = entries(folder);
        const read = (name: string) => readFileSync(join(folder, 'kept', name), 'utf8');
        const [first, second] = [read(a), read(b)];
        writeFileSync(join(folder, 'kept', a), second);
        writeFileSync(join(folder, 'kept', b), first);
      },
    ],
    [
      'a link to elsewhere',
      (folder) =>
        each(folder, (file) => {
          rmSync(file);
          symlinkSync(join(folder, 'a.receiver'), file);
        }),
    ],
    [
      'a folder',
      (folder) =>
        each(folder, (file) => {
          rmSync(file);
          mkdirSync(file);
        }),
    ],
    [
      'a pipe that nobody writes to',
      (folder) =>
        each(folder, (file) => {
          rmSync(file);
          makePipe(file);
        }),
    ],
  ];

  it.each(damages)('by an entry that is %s is passed over', (_, damage) => {
    const folder = folderWith({ 'a.receiver': deadly, 'b.receiver': sound });
    const fresh = check(folder);
    damage(folder);
    const { code, out } = check(folder);
    expect({ code, out }).toEqual({ code: fresh.code, out: fresh.out });
  });

  it('never writes through a link', () => {
    const folder = folderWith({ 'a.receiver': sound, precious: 'precious' });
    check(folder);
    for (const name of [...entries(folder), 'tidied']) {
      rmSync(join(folder, 'kept', name), { force: true });
      symlinkSync(join(folder, 'precious'), join(folder, 'kept', name));
    }
    check(folder);
    expect(readFileSync(join(folder, 'precious'), 'utf8')).toBe('precious');
  });
});

describe('the folder of the cache', () => {
  it('is left alone by git and by what saves folders', () => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    expect(readFileSync(join(folder, 'kept/.gitignore'), 'utf8')).toBe('*\n');
    expect(readFileSync(join(folder, 'kept/CACHEDIR.TAG'), 'utf8')).toMatch(
      /^Signature: 8a477f597d28d172789f06886806bc55\n/,
    );
  });

  it.each<[string, (folder: string) => void, RegExp]>([
    [
      'holds other things',
      (folder) => mkdirSync(join(folder, 'kept/photos'), { recursive: true }),
      /holds other things/,
    ],
    ['is a file', (folder) => writeFileSync(join(folder, 'kept'), ''), /it is no folder/],
    ['is a link', (folder) => symlinkSync('.', join(folder, 'kept')), /it is a link/],
  ])('is refused where it %s', (_, make, words) => {
    const folder = folderWith({ 'a.receiver': sound });
    make(folder);
    const before = readdirSync(folder);
    const { code, out, err } = check(folder);
    expect([code, out, err]).toEqual([2, '', expect.stringMatching(words)]);
    expect(readdirSync(folder)).toEqual(before);
  });

  const name = (letter: string) => letter.repeat(64);
  const filled = (limits: Parameters<typeof openCacheFolder>[1]) => {
    const folder = join(folderWith({}), 'kept');
    const opened = openCacheFolder(folder, limits);
    for (const [age, letter] of ['a', 'b', 'c'].entries()) {
      opened.write(name(letter), 'x'.repeat(100));
      const time = Date.now() / 1000 - age * 86_400 * 2;
      utimesSync(join(folder, name(letter)), time, time);
    }
    opened.tidy();
    return readdirSync(folder).filter(isEntry);
  };

  it('loses what is old, and the oldest of what is too much', () => {
    expect(filled({ entries: 10, bytes: 1e6, days: 3 })).toEqual([name('a'), name('b')]);
    expect(filled({ entries: 2, bytes: 1e6, days: 30 })).toEqual([name('a'), name('b')]);
    expect(filled({ entries: 10, bytes: 250, days: 30 })).toEqual([name('a'), name('b')]);
  });

  it('keeps what is not its own', () => {
    const folder = join(folderWith({}), 'kept');
    const opened = openCacheFolder(folder, { entries: 0, bytes: 0, days: 0 });
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    opened.tidy();
    expect(readdirSync(folder)).toContain('notes.txt');
  });
});

describe('an entry', () => {
  const used = { reading: {}, stampOf: () => 'stamp', textOf: () => undefined };
  const parcel: Parcel = { findings: [], sets: [], uses: [] };
  const cacheOf = (folder: string, made: string[]): EntryCache<Parcel> =>
    entryCache(openCacheFolder(folder), made, used, isParcel);

  it('is of the very tool, path and text that it was made with', () => {
    const folder = join(folderWith({}), 'kept');
    cacheOf(folder, ['0.1.0', 'digest']).keep('a', 'text', parcel);
    const found = (made: string[], path: string, text: string) =>
      cacheOf(folder, made).find(path, text) !== undefined;
    expect(found(['0.1.0', 'digest'], 'a', 'text')).toBe(true);
    expect(found(['0.1.1', 'digest'], 'a', 'text')).toBe(false);
    expect(found(['0.1.0', 'another'], 'a', 'text')).toBe(false);
    expect(found(['0.1.0', 'digest'], 'b', 'text')).toBe(false);
    expect(found(['0.1.0', 'digest'], 'a', 'texts')).toBe(false);
  });

  it('that cannot be kept is told of, and disturbs nothing', () => {
    const folder = folderWith({ 'a.receiver': sound });
    check(folder);
    for (const entry of entries(folder)) {
      rmSync(join(folder, 'kept', entry));
      mkdirSync(join(folder, 'kept', entry));
    }
    const { code, err } = check(folder);
    expect([code, err]).toEqual([0, expect.stringContaining('nothing more is kept in the cache')]);
  });
});
