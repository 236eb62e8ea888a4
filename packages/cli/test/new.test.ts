import { mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { setPatterns } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

describe('new', () => {
  it('lists the patterns, each with what it is', () => {
    const { code, out } = runIn(folderWith({}), ['new']);
    expect(code).toBe(0);
    for (const { name, title } of setPatterns)
      expect(out).toMatch(new RegExp(`^ {2}${name} +${title}: `, 'm'));
  });

  it.each(setPatterns.map(({ name }) => [name]))('%s gives a set without a fault', (name) => {
    const folder = folderWith({});
    expect(runIn(folder, ['new', name, '-o', 'set.receiver'])).toEqual({
      code: 0,
      out: '',
      err: '',
    });
    expect(readdirSync(folder)).toEqual(['set.receiver']);
    const { code, out } = runIn(folder, ['check', 'set.receiver']);
    expect(out).toContain('0 errors, 0 warnings');
    expect(code).toBe(0);
    expect(runIn(folder, ['format', '--check', '.']).code).toBe(0);
  });

  it('writes to standard output where no file is named', () => {
    expect(runIn(folderWith({}), ['new', 'crystal']).out).toBe(setPatterns[0]?.text);
  });

  it('gives the set a title', () => {
    const { out } = runIn(folderWith({}), ['new', 'reflex', '--title', 'Boat $& "shed"\u001b[2J']);
    expect(out).toMatch(/^receiver "Boat \$& 'shed' \[2J" \{$/m);
  });

  it('leaves a file alone that is there, unless it is told to write over it', () => {
    const folder = folderWith({ 'set.receiver': 'mine' });
    const { code, err } = runIn(folder, ['new', 'crystal', '-o', 'set.receiver']);
    expect([code, err]).toEqual([
      2,
      'setwright: set.receiver is there already, and is left as it is. Name another place, or write over it with --force.\n',
    ]);
    expect(readFileSync(join(folder, 'set.receiver'), 'utf8')).toBe('mine');
    expect(runIn(folder, ['new', 'crystal', '-o', 'set.receiver', '--force']).code).toBe(0);
    expect(readFileSync(join(folder, 'set.receiver'), 'utf8')).toBe(setPatterns[0]?.text);
  });

  it('takes a link to nothing for a file that is there', () => {
    const folder = folderWith({});
    symlinkSync(join(folder, 'elsewhere'), join(folder, 'set.receiver'));
    expect(runIn(folder, ['new', 'crystal', '-o', 'set.receiver']).code).toBe(2);
    expect(readdirSync(folder)).toEqual(['set.receiver']);
  });

  it.each([
    [['new', 'cristal'], 'Did you mean crystal?'],
    [['new', 'zzz'], 'For the list of all: setwright new'],
    [['new', 'crystal', '-o', 'set.txt'], 'Let it end in .receiver'],
    [['new', 'crystal', '-o', 'nowhere/set.receiver'], 'there is no such folder'],
    [['new', 'crystal', '-o', 'folder.receiver', '--force'], 'it is a folder'],
    [['new', '--title', 'x'], 'Which pattern?'],
  ])('%j is told what is wrong', (args, words) => {
    const folder = folderWith({});
    mkdirSync(join(folder, 'folder.receiver'));
    const { code, err } = runIn(folder, args);
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(readdirSync(folder)).toEqual(['folder.receiver']);
  });
});
