import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { type DrawCommandOptions, draw } from '../src/draw.ts';
import * as drawing from '../src/drawing.ts';
import { pngOf } from '../src/png.ts';
import { folderWith, sound } from './support.ts';

const plain: DrawCommandOptions = {
  output: undefined,
  scale: undefined,
  receiver: undefined,
  theme: 'light',
  symbols: 'modern',
  rows: undefined,
  view: 'whole',
  values: false,
  units: 'period',
  stages: false,
  page: undefined,
};

/** Draws a set in this process. */
async function drawIn(
  text: string,
  options: Partial<DrawCommandOptions> = {},
  draughtsman: Parameters<typeof draw>[3] = () => drawing,
) {
  const cwd = folderWith({ 'set.receiver': text });
  mkdirSync(join(cwd, 'folder.svg'));
  const written = { out: '', err: '' };
  const writing = (where: 'out' | 'err') => ({
    write: (words: string) => {
      written[where] += words;
    },
  });
  const code = await draw(
    'set.receiver',
    { ...plain, ...options },
    { out: writing('out'), err: writing('err'), env: {}, cwd, inIsSilent: true },
    draughtsman,
  );
  const file = options.output === undefined ? undefined : join(cwd, options.output);
  return { ...written, code, file };
}

const fiveTube = readFileSync(
  join(import.meta.dirname, '../../../examples/five-tube-trf.receiver'),
  'utf8',
);
const two = `${sound}\n${sound.replace('"Sound"', '"Other"')}`;

describe('setwright draw', () => {
  it('writes an SVG to standard output, letters as outlines and colours baked in', async () => {
    const { code, out, err } = await drawIn(sound);
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(/^<svg /);
    expect(out).not.toContain('<text');
    expect(out).not.toContain('var(');
  });

  it('draws a view over it, and numbers and stages', async () => {
    const { out } = await drawIn(sound, { view: 'plate V1', values: true });
    expect(out).toContain('class="path direct"');
    expect(out).toMatch(/class="letters figure"/);
  });

  it('names the views that there are where one is asked for that there is not', async () => {
    const { code, out, err } = await drawIn(sound, { view: 'bais V1' });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('There is no view "bais V1". Did you mean "bias V1"');
    expect(err).toContain('This set has: whole, audio, bias, bias V1, plate, plate V1, filaments.');
  });

  it('draws of a file with several sets the one that is asked for', async () => {
    expect((await drawIn(two, { receiver: '2' })).out).toContain('>Other</title>');
    expect((await drawIn(two, { receiver: 'sound' })).out).toContain('>Sound</title>');
  });

  it('says which sets a file holds where none of them is asked for, or one that is not there', async () => {
    const none = await drawIn(two);
    expect(none.code).toBe(2);
    expect(none.err).toBe(
      'setwright: set.receiver holds 2 receivers: 1 "Sound", 2 "Other". Say which, as in: --receiver 1\n',
    );
    expect((await drawIn(two, { receiver: 'Othr' })).err).toContain('Did you mean "Other"?');
    expect((await drawIn(two, { receiver: '3' })).err).toContain('It holds: 1 "Sound", 2 "Other".');
  });

  it('makes a page with a title block', async () => {
    const { out } = await drawIn(sound, { page: 'letter' });
    expect(out).toContain('width="215.9mm" height="279.4mm"');
    expect(out).toContain('class="block"');
  });

  it('says of what letters there are no outlines', async () => {
    const { err } = await drawIn(sound.replace('"Sound"', '"Звук"'));
    expect(err).toContain('No outlines are at hand of: Звук.');
  });

  it('takes for a page so many rows as print largest', async () => {
    const { circuits } = readReceivers(fiveTube, 'five.receiver');
    const size = async (rows: 'one' | undefined) => {
      const options = { ...plain, rows, page: 'a4' } as const;
      const made = await drawing.schematicOf(circuits[0]!, options);
      return 'views' in made ? 0 : (made.smallestLetters ?? 0);
    };
    const [one, largest] = [await size('one'), await size(undefined)];
    expect(largest).toBeGreaterThan(1.3 * one);
    expect(largest).toBeGreaterThan(6.5);
  });

  it('says of letters too small to read what to do about them', async () => {
    const { code, err } = await drawIn(fiveTube, { page: 'letter', rows: 'one' });
    expect(code).toBe(0);
    expect(err).toMatch(
      /^setwright: The smallest letters are \d\.\d points on this paper\. Turn the/,
    );
  });

  const wrong = 'receiver "Sound" {\n  tube V1 01-A\n  tube V2 grid too X {\n}\n';
  it.each([
    ['an empty file', '', 'set.receiver: there is no receiver in it. Name the file of a set.'],
    ['a file of other words', 'hello\n', 'set.receiver: there is no receiver in it.'],
    ['bytes that are no text', 'receiver\0', 'set.receiver: it is no text: there is a zero byte'],
  ])('says of %s what it is and what is wanted', async (_what, text, told) => {
    const { code, out, err } = await drawIn(text);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(told);
  });

  it('draws what can be read, and says which lines cannot', async () => {
    const { code, out, err } = await drawIn(wrong);
    expect(code).toBe(0);
    expect(out).toContain('data-part="V1"');
    expect(err).toMatch(/^setwright: set\.receiver: line \d.* cannot be read, so something may be/);
  });

  it('draws a receiver with nothing in it as an empty sheet', async () => {
    const { code, out, err } = await drawIn('receiver "Nothing" {\n}\n');
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('<title id="setwright-title">Nothing</title>');
  });

  it.each(['stage FOO', 'suppose 99', '', 'bias V9'])('has no view "%s"', async (view) => {
    const { code, out, err } = await drawIn(sound, { view });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(`There is no view "${view}".`);
    expect(err).toContain('This set has: whole,');
  });

  it.each([
    ['set.jpg', 'set.jpg is no name for a drawing. Let it end in .svg or .png, as in: -o set.svg'],
    ['', 'Nothing is no name for a drawing. Let it end in .svg or .png'],
    ['-', '- is no name for a drawing. Let it end in .svg or .png'],
    ['away/set.svg', 'away/set.svg cannot be written: there is no such folder. Name another place'],
    ['folder.svg', 'folder.svg cannot be written: it is a folder. Name another place'],
  ])('does not write to "%s", and says why', async (output, told) => {
    const { code, err } = await drawIn(sound, { output });
    expect(code).toBe(2);
    expect(err).toContain(told);
  });

  it('paints a PNG, as large as it is told', async () => {
    const sizes = [];
    for (const scale of [1, 3]) {
      const { code, file } = await drawIn(sound, { output: 'set.png', scale });
      expect(code).toBe(0);
      const png = readFileSync(file!);
      expect(png.subarray(1, 4).toString()).toBe('PNG');
      sizes.push(png.readUInt32BE(16));
    }
    expect(sizes[1]).toBe(3 * sizes[0]!);
  });

  it.each(['modern', 'period'] as const)('paints letters without any font, %s', async (symbols) => {
    const { out } = await drawIn(sound, { symbols });
    const { width, pixels } = new Resvg(out, { font: { loadSystemFonts: false } }).render();
    // The title stands by itself in the uppermost forty rows.
    let dark = 0;
    for (let at = 0; at < width * 40 * 4; at += 4) if (pixels[at]! < 128) dark++;
    expect(dark).toBeGreaterThan(100);
  });

  it('refuses a scale where there are no dots, and names that are no drawings', async () => {
    const scaled = await drawIn(sound, { output: 'set.svg', scale: 2 });
    expect([scaled.code, existsSync(scaled.file!)]).toEqual([2, false]);
    expect(scaled.err).toContain('--scale is for pictures made of dots.');
    const named = await drawIn(sound, { output: 'set.pdf' });
    expect(named.err).toContain('set.pdf is no name for a drawing. Let it end in .svg or .png');
  });

  it('never writes over the set itself', async () => {
    const { code, err } = await drawIn(sound, { output: './set.receiver' });
    expect(code).toBe(2);
    expect(err).toContain('is no name for a drawing');
  });

  it('says so where the painter cannot be loaded, and what to do instead', async () => {
    const { code, err, file } = await drawIn(sound, { output: 'set.png' }, () => ({
      ...drawing,
      pngOf: (svg, scale, letters) =>
        pngOf(svg, scale, letters, () => Promise.reject(new Error('no such module\nat …'))),
    }));
    expect([code, existsSync(file!)]).toEqual([2, false]);
    expect(err).toContain('cannot be loaded here (no such module). Write an SVG');
  });

  it('refuses a picture that is too large to be painted', async () => {
    const { code, err } = await drawIn(sound, { output: 'set.png', scale: 40 });
    expect(code).toBe(2);
    expect(err).toMatch(/would be \d+ by \d+ dots, more than can be painted/);
  });
});
