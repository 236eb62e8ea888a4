import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inputOf } from './fuzz/inputs.ts';
import { type Form, judged } from './fuzz/judging.ts';
import { tried } from './fuzz/trying.ts';
import { withSoundJson } from './fuzz/written-json.ts';

/** Each block of seeds is one test, so that a failure names its seeds. */
const BLOCKS = 20;
const BLOCK = 100;
const PATIENCE = 300_000;

const fixtures = join(import.meta.dirname, 'fuzz/fixtures');

const page = (body: string) =>
  `<!doctype html>\n<html><head><meta http-equiv="Content-Security-Policy"></head><body>${body}</body></html>`;
const picture = (inside: string) => `<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`;

describe('what judges the outputs', () => {
  it.each<[Form, string]>([
    ['text', 'the plate current is 2 mA\n'],
    ['json', '{"volts":null}'],
    ['github', '::error file=a.receiver,line=1::no\n'],
    ['csv', 'part,value\n"V1, the first",-4\n'],
    ['markdown', '| a | b |\n| --- | --- |\n| \\<script> \\| | `](https://e.test)` |\n'],
    ['svg', picture('<path d="M0 0 L1 1"/><text x="1">NaN is a title</text>')],
    ['html', page('<h2 id="a">a &amp; b<br></h2><a href="#a">a</a>')],
  ])('lets pass sound %s', (form, told) => {
    expect(() => judged(told, form, 'NaN')).not.toThrow();
  });

  it.each<[Form, string, string]>([
    ['text', 'the plate current is NaN mA', 'says NaN'],
    ['text', 'Infinity ohms', 'says Infinity'],
    ['text', 'undefined', 'says undefined'],
    ['text', 'the part [object Object]', 'says [object'],
    ['text', 'Error: no\n    at checkOne (a.js:1:1)', 'says'],
    ['text', '\u001b[31mred', 'orders'],
    ['text', '\u202egnorw', 'orders'],
    ['json', '{"volts":NaN}', 'NaN'],
    ['sarif', '{"version":"2.1.0"}', 'no SARIF'],
    ['github', '::error file=a::no\n::stop-commands::x', 'no annotation'],
    ['csv', 'part,value\nV1\n', 'a row of another length'],
    ['csv', 'part,value\nV1,=1+2\n', 'a spreadsheet'],
    ['markdown', 'a <script>alert(1)</script>', 'an element'],
    ['markdown', '[a](javascript:alert(1))', 'a link'],
    ['markdown', '| a | b |\n| a |\n', 'a row of another length'],
    ['svg', picture('<path d="M0 NaN"/>'), 'NaN'],
    ['svg', picture('<script/>'), 'an element'],
    ['svg', picture('<g onload="x"/>'), 'an attribute'],
    ['svg', picture('<g>'), 'no XML'],
    ['html', page('<p>a < b</p>'), 'a bare <'],
    ['html', page('<p>a & b</p>'), 'a bare &'],
    ['html', page('<p><b>a</p></b>'), 'closes another'],
    ['html', page('<a href="#b">a</a>'), 'leads nowhere'],
    ['html', page('<i id="a"></i><i id="a"></i>'), 'two of one id'],
    ['html', page('<a href="https://e.test">a</a>'), 'a link'],
    ['html', '<!doctype html><html></html>', 'without a policy'],
  ])('refuses unsound %s: %s', (form, told, why) => {
    expect(() => judged(told, form, '')).toThrow(why);
  });

  it('refuses a number that JSON would write as null, and lets one pass that is meant', async () => {
    await expect(withSoundJson(() => JSON.stringify({ volts: Number.NaN }))).rejects.toThrow(/NaN/);
    expect(await withSoundJson(() => JSON.stringify({ volts: null }, undefined, 1))).toBe(
      '{\n "volts": null\n}',
    );
  });
});

describe('texts that something once fell over', () => {
  it.each(readdirSync(fixtures))(
    '%s',
    async (name) => {
      expect(await tried(readFileSync(join(fixtures, name), 'utf8'), 1, undefined, 0)).toEqual([]);
    },
    PATIENCE,
  );
});

describe('texts of every kind, through everything that is made of sets', () => {
  it.each(Array.from({ length: BLOCKS }, (_, block) => 1 + block * BLOCK))(
    'seeds from %i on: nothing throws, and no figure and no word is nonsense',
    async (from) => {
      const failures: string[] = [];
      for (let seed = from; seed < from + BLOCK; seed++)
        for (const { stage, message } of await tried(inputOf(seed).text, seed))
          failures.push(`seed ${seed}: ${stage}: ${message}`);
      expect(failures).toEqual([]);
    },
    // Some are large, and others may be at work on the machine.
    PATIENCE,
  );
});
