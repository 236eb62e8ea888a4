import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as drawing from '../src/drawing.ts';
import { type TourCommandOptions, tour } from '../src/tour.ts';
import { runLater, sound } from './support.ts';

const plain: TourCommandOptions = {
  output: undefined,
  format: undefined,
  level: 'restorer',
  receiver: undefined,
  symbols: 'modern',
  units: 'period',
};

/** Makes the tour of a set in this process. */
const tourIn = (text: string, options: Partial<TourCommandOptions> = {}) =>
  runLater(text, (file, streams) => tour(file, { ...plain, ...options }, streams, () => drawing));

const two = `${sound}\n${sound.replace('"Sound"', '"Other"')}`;

/** A set whose names and titles try to break out of a page. */
const hostile = sound
  .replace('"Sound"', '"</title><script>alert(1)</script> & <b>"')
  .replace('resistor R2', 'resistor R2 "</svg><img src=x onerror=alert(1)>"')
  .replace(/\}\s*$/, '  suppose "]]></style><script>alert(2)</script>" { open R2 }\n}\n');

describe('setwright tour', () => {
  it('writes a page to standard output that runs nothing but its own script', async () => {
    const { code, out, err } = await tourIn(sound);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^<!doctype html>/);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(out)?.[1] ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('unsafe');
    const hash = (text: string) => createHash('sha256').update(text).digest('base64');
    const scripts = [...out.matchAll(/<script>([\s\S]*?)<\/script>/g)].map(
      ([, text]) => text ?? '',
    );
    const styles = [...out.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, text]) => text ?? '');
    expect(scripts).toHaveLength(1);
    for (const text of [...scripts, ...styles]) expect(policy).toContain(`'sha256-${hash(text)}'`);
    expect(out).not.toMatch(/ (?:style|on\w+)="/);
    expect(out).not.toMatch(/(?:src|href)="(?!#)/);
  });

  it('stays small: a page under a megabyte and a half', async () => {
    const text = readFileSync(
      join(import.meta.dirname, '../../../examples/superheterodyne.receiver'),
      'utf8',
    );
    const { out } = await tourIn(text, { level: 'newcomer' });
    expect(out.length).toBeLessThan(1_500_000);
  });

  it('escapes whatever names and titles say', async () => {
    const { out } = await tourIn(hostile);
    expect(out).not.toContain('<script>alert');
    expect(out).not.toContain('<img');
    expect(out).not.toContain('</svg><');
    expect(out.match(/<script/g)).toHaveLength(2);
    const markdown = await tourIn(hostile, { output: 'out/tour.md' });
    expect(readFileSync(join(markdown.cwd, 'out/tour.md'), 'utf8')).not.toMatch(
      /(?<!\\)<(?:script|img)/,
    );
  });

  it('writes Markdown with a picture beside every step', async () => {
    const { code, cwd } = await tourIn(sound, { output: 'walk/tour.md' });
    expect(code).toBe(0);
    const text = readFileSync(join(cwd, 'walk/tour.md'), 'utf8');
    const pictures = [...text.matchAll(/!\[[^\]]*\]\(([^)]*)\)/g)].map(([, name]) => name ?? '');
    expect(pictures.length).toBeGreaterThan(3);
    for (const name of pictures) expect(existsSync(join(cwd, 'walk', name)), name).toBe(true);
    expect(readdirSync(join(cwd, 'walk'))).toHaveLength(pictures.length + 1);
    expect(text).toMatch(/^# Tour of Sound$/m);
  });

  it('tells newcomers what restorers know', async () => {
    const [restorer, newcomer] = await Promise.all(
      (['restorer', 'newcomer'] as const).map((level) => tourIn(sound, { level })),
    );
    expect(newcomer?.out).toContain('gives off electrons');
    expect(restorer?.out).not.toContain('gives off electrons');
  });

  it('asks which of several sets, and takes a number or a title', async () => {
    expect((await tourIn(two)).err).toContain('holds 2 receivers');
    expect((await tourIn(two, { receiver: 'other' })).out).toContain('<h1>Other</h1>');
  });

  it('says so when it has no place for pictures, or a name of another kind', async () => {
    const without = await tourIn(sound, { format: 'markdown' });
    expect([without.code, without.err]).toEqual([2, expect.stringContaining('pictures beside it')]);
    const wrong = await tourIn(sound, { output: 'tour.pdf' });
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('no name for a tour')]);
    expect(existsSync(join(wrong.cwd, 'tour.pdf'))).toBe(false);
  });
});
