import {
  chmodSync,
  lstatSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const messy = sound.replaceAll('\n  ', '\n      ').replace('wire A-', 'wire   A-');
const broken = 'receiver "x" {\n   post A\n';

describe('format', () => {
  it('puts a file in order, in its place, and says so', () => {
    const folder = folderWith({ 'a.receiver': messy, 'b.receiver': sound });
    expect(runIn(folder, ['format', '.'])).toEqual({ code: 0, out: 'a.receiver\n', err: '' });
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(sound);
    expect(readdirSync(folder).sort()).toEqual(['a.receiver', 'b.receiver']);
  });

  it('does not touch a file that is in order', () => {
    const folder = folderWith({ 'a.receiver': sound });
    const long = new Date('2001-01-01');
    utimesSync(join(folder, 'a.receiver'), long, long);
    runIn(folder, ['format', 'a.receiver']);
    expect(statSync(join(folder, 'a.receiver')).mtime).toEqual(long);
  });

  it('keeps the mode of the file', () => {
    const folder = folderWith({ 'a.receiver': messy });
    chmodSync(join(folder, 'a.receiver'), 0o640);
    runIn(folder, ['format', 'a.receiver']);
    expect(statSync(join(folder, 'a.receiver')).mode & 0o777).toBe(0o640);
  });

  it('writes through a link and leaves the link', () => {
    const folder = folderWith({ 'real/a.receiver': messy });
    symlinkSync(join(folder, 'real/a.receiver'), join(folder, 'link.receiver'));
    runIn(folder, ['format', 'link.receiver']);
    expect(lstatSync(join(folder, 'link.receiver')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, 'real/a.receiver'), 'utf8')).toBe(sound);
  });

  it('keeps line ends and the mark of byte order', () => {
    const crlf = (text: string) => `\ufeff${text.replaceAll('\n', '\r\n')}`;
    const folder = folderWith({ 'a.receiver': crlf(messy) });
    runIn(folder, ['format', 'a.receiver']);
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(crlf(sound));
  });

  it('leaves a file whose braces do not match, says so, and goes on', () => {
    const folder = folderWith({ 'a.receiver': broken, 'b.receiver': messy });
    const { code, err } = runIn(folder, ['format', '.']);
    expect([code, err]).toEqual([
      2,
      expect.stringContaining('a.receiver: its braces do not match'),
    ]);
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(broken);
    expect(readFileSync(join(folder, 'b.receiver'), 'utf8')).toBe(sound);
  });
});

describe('format --check', () => {
  it('lists what is not in order and changes nothing', () => {
    const folder = folderWith({ 'a.receiver': messy, 'b.receiver': sound });
    expect(runIn(folder, ['format', '--check', '.'])).toEqual({
      code: 1,
      out: 'a.receiver\n',
      err: '1 file is not in order.\n',
    });
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(messy);
  });

  it('has nothing to say of files in order', () => {
    const folder = folderWith({ 'a.receiver': sound });
    expect(runIn(folder, ['format', '--check', '.'])).toEqual({ code: 0, out: '', err: '' });
  });
});

describe('format --stdout', () => {
  it('writes the text and leaves the file', () => {
    const folder = folderWith({ 'a.receiver': messy });
    expect(runIn(folder, ['format', '--stdout', 'a.receiver']).out).toBe(sound);
    expect(readFileSync(join(folder, 'a.receiver'), 'utf8')).toBe(messy);
  });

  it('takes one file', () => {
    const folder = folderWith({ 'a.receiver': messy, 'b.receiver': messy });
    expect(runIn(folder, ['format', '--stdout', '.']).code).toBe(2);
  });
});
