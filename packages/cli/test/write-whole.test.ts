import {
  chmodSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isBesideName, isSameFile, writeWhole } from '../src/write-whole.ts';
import { folderWith } from './support.ts';

const contents = (folder: string, name: string) => readFileSync(join(folder, name), 'utf8');

describe('a file that is written whole', () => {
  it('holds what it was given, text or bytes', () => {
    const folder = folderWith({});
    writeWhole(join(folder, 'a.svg'), 'Ω'.repeat(100_000));
    writeWhole(join(folder, 'b.png'), Uint8Array.of(0, 255, 10));
    expect(contents(folder, 'a.svg')).toBe('Ω'.repeat(100_000));
    expect([...readFileSync(join(folder, 'b.png'))]).toEqual([0, 255, 10]);
  });

  it('leaves nothing beside itself', () => {
    const folder = folderWith({ 'a.svg': 'old' });
    writeWhole(join(folder, 'a.svg'), 'new');
    expect(readdirSync(folder)).toEqual(['a.svg']);
  });

  it('keeps the mode of the file that was there', () => {
    const folder = folderWith({ 'a.svg': 'old' });
    chmodSync(join(folder, 'a.svg'), 0o640);
    writeWhole(join(folder, 'a.svg'), 'new');
    expect(statSync(join(folder, 'a.svg')).mode & 0o777).toBe(0o640);
  });

  it('is new to whoever opens it, and as it was to whoever has it open', () => {
    const folder = folderWith({ 'a.svg': 'old' });
    linkSync(join(folder, 'a.svg'), join(folder, 'held'));
    writeWhole(join(folder, 'a.svg'), 'new');
    expect([contents(folder, 'a.svg'), contents(folder, 'held')]).toEqual(['new', 'old']);
  });

  it('is the one that a link leads to, and the link stays', () => {
    const folder = folderWith({ 'real/a.svg': 'old' });
    symlinkSync('real/a.svg', join(folder, 'link.svg'));
    writeWhole(join(folder, 'link.svg'), 'new');
    expect(contents(folder, 'real/a.svg')).toBe('new');
    expect(readlinkSync(join(folder, 'link.svg'))).toBe('real/a.svg');
  });

  it('is made where a link leads that leads to nothing yet', () => {
    const folder = folderWith({ 'real/other': '' });
    symlinkSync('real/a.svg', join(folder, 'link.svg'));
    writeWhole(join(folder, 'link.svg'), 'new');
    expect(contents(folder, 'real/a.svg')).toBe('new');
    expect(lstatSync(join(folder, 'link.svg')).isSymbolicLink()).toBe(true);
  });

  it('may have the longest name that the system takes', () => {
    const folder = folderWith({});
    const name = `${'n'.repeat(251)}.svg`;
    writeWhole(join(folder, name), 'new');
    expect(contents(folder, name)).toBe('new');
  });
});

describe('a place that cannot be written', () => {
  const refused = (folder: string, name: string) => {
    const before = readdirSync(folder);
    let words = '';
    try {
      writeWhole(join(folder, name), 'new');
    } catch (error) {
      words = (error as Error).message;
    }
    expect(readdirSync(folder)).toEqual(before);
    return words;
  };

  it('is a folder', () => {
    const folder = folderWith({});
    mkdirSync(join(folder, 'a.svg'));
    expect(refused(folder, 'a.svg')).toBe('it is a folder');
  });

  it('is a device, by whatever link', () => {
    const folder = folderWith({});
    symlinkSync('/dev/null', join(folder, 'a.svg'));
    expect(refused(folder, 'a.svg')).toBe('it is a device or a pipe, and no file');
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
  });

  it('is a file that is read-only', () => {
    const folder = folderWith({ 'a.svg': 'old' });
    chmodSync(join(folder, 'a.svg'), 0o444);
    expect(refused(folder, 'a.svg')).toMatch(/read-only/);
    expect(contents(folder, 'a.svg')).toBe('old');
  });

  it('is in a folder that is not there', () => {
    expect(refused(folderWith({}), 'none/a.svg')).toBe('there is no such folder');
  });

  it('lies below a file', () => {
    expect(refused(folderWith({ file: '' }), 'file/a.svg')).toBe('a part of its path is no folder');
  });

  it('is at the end of links that lead round in a circle', () => {
    const folder = folderWith({});
    symlinkSync('b.svg', join(folder, 'a.svg'));
    symlinkSync('a.svg', join(folder, 'b.svg'));
    expect(refused(folder, 'a.svg')).toBe('its links lead round in a circle');
  });

  it('has a name that is too long', () => {
    expect(refused(folderWith({}), 'n'.repeat(300))).toBe('its name is too long');
  });
});

describe('two names', () => {
  it('stand for one file by a link of either kind', () => {
    const folder = folderWith({ a: '' });
    symlinkSync('a', join(folder, 'soft'));
    linkSync(join(folder, 'a'), join(folder, 'hard'));
    expect(isSameFile(join(folder, 'a'), join(folder, 'soft'))).toBe(true);
    expect(isSameFile(join(folder, 'a'), join(folder, 'hard'))).toBe(true);
  });

  it('stand for two files where they hold the same', () => {
    const folder = folderWith({ a: 'x', b: 'x' });
    expect(isSameFile(join(folder, 'a'), join(folder, 'b'))).toBe(false);
  });
});

describe('the name of a file that is being written', () => {
  it('is hidden and told from every other', () => {
    expect(isBesideName('.setwright-12-0123456789ab.tmp')).toBe(true);
    expect(isBesideName('.setwright-cache')).toBe(false);
  });
});
