import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as drawing from '../src/drawing.ts';
import { report, type SheetCommandOptions } from '../src/sheet-command.ts';
import { folderWith, runIn, runLater, sound } from './support.ts';

const plain: SheetCommandOptions = {
  output: undefined,
  format: undefined,
  receiver: undefined,
  bench: undefined,
  date: undefined,
  symbols: 'modern',
  units: 'period',
};

/** Makes the sheet of a set in this process. */
const sheetIn = (text: string, options: Partial<SheetCommandOptions> = {}) =>
  runLater(text, (file, streams) => report(file, { ...plain, ...options }, streams, () => drawing));

const two = `${sound}\n${sound.replace('"Sound"', '"Other"')}`;

describe('setwright report', () => {
  it('writes a page that runs nothing, with the schematic in it', async () => {
    const { code, out, err } = await sheetIn(sound);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^<!doctype html>/);
    expect(out).not.toMatch(/<script| on\w+="/);
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(out) ?? [];
    const styles = [...out.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, text]) => text ?? '');
    expect(styles).toHaveLength(2);
    for (const text of styles)
      expect(policy).toContain(`'sha256-${createHash('sha256').update(text).digest('base64')}'`);
    for (const part of ['V1', 'R1', 'P1']) expect(out).toContain(`data-part="${part}"`);
  });

  it('tells what check tells, in the same words', async () => {
    const faulty = sound.replace(
      'phones P1 2000 ohms from V1.plate',
      'phones P1 2000 ohms from V1.grid',
    );
    const { out } = await sheetIn(faulty);
    const cwd = folderWith({ 'set.receiver': faulty });
    const { files } = JSON.parse(runIn(cwd, ['check', 'set.receiver', '--format', 'json']).out);
    const messages: string[] = files[0].findings.map(({ message }: { message: string }) => message);
    expect(messages.length).toBeGreaterThan(0);
    for (const message of messages)
      expect(out.replaceAll('&#39;', "'").replaceAll('\u00a0', ' ')).toContain(message);
  });

  it('is the same page each time, and says what it was made from', async () => {
    const [one, other] = [await sheetIn(sound), await sheetIn(sound)];
    expect(one.out).toBe(other.out);
    expect(one.out).toMatch(/Made by setwright \d+\.\d+\.\d+\S*, from set\.receiver</);
  });

  it('writes Markdown with its pictures beside it', async () => {
    const { code, cwd } = await sheetIn(sound, { output: 'out/my sheet.md' });
    expect(code).toBe(0);
    const text = readFileSync(join(cwd, 'out/my sheet.md'), 'utf8');
    const pictures = [...text.matchAll(/!\[[^\]]*\]\(([^)]*)\)/g)].map(([, name]) => name ?? '');
    expect(pictures[0]).toBe('my-sheet-schematic.svg');
    for (const name of pictures) expect(existsSync(join(cwd, 'out', name)), name).toBe(true);
    expect(readdirSync(join(cwd, 'out'))).toHaveLength(pictures.length + 1);
  });

  it('asks which of several sets, and which bench', async () => {
    expect((await sheetIn(two)).err).toContain('holds 2 receivers');
    expect((await sheetIn(two, { receiver: '2' })).out).toContain('<h1>Other</h1>');
    const { code, err } = await sheetIn(sound, { bench: 'none such' });
    expect([code, err]).toEqual([2, expect.stringContaining('no bench called "none such"')]);
  });

  it('prints a date only where one is given', async () => {
    const dated = await sheetIn(sound, { date: '12 May <1926>' });
    expect(dated.out).toContain('<dd>12 May &lt;1926&gt;</dd>');
    expect((await sheetIn(sound)).out).toContain('<dt>Date</dt><dd class="line"></dd>');
  });

  it('never writes over the set, and says when a name does not fit', async () => {
    const wrong = await sheetIn(sound, { output: 'sheet.pdf' });
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('no name for a sheet')]);
    const bare = await sheetIn(sound, { format: 'markdown' });
    expect([bare.code, bare.err]).toEqual([2, expect.stringContaining('pictures beside it')]);
  });
});
