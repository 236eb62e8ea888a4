import { createHash } from 'node:crypto';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { largestOnSheet } from '../../src/sheet/page/largest-on-sheet.ts';
import { sheetMarkdown } from '../../src/sheet/page/sheet-markdown.ts';
import { sheetPage } from '../../src/sheet/page/sheet-page.ts';
import { exampleSheet, sheetIn } from './sheets.ts';

const digest = (text: string): string => createHash('sha256').update(text).digest('base64');

/** What a reader of XML complains of in a page, whose only empty elements are those of its head. */
function complaints(page: string): readonly string[] {
  const found: string[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => found.push(error.message));
  parser.write(page.replace('<!doctype html>', '').replace(/<meta [^>]*>/g, '')).close();
  return found;
}

const hostile = `receiver "</title><script>alert(1)</script>" {
  note "]]></style><img src=x onerror=alert(2)> | [x](javascript:alert(3)) \`y\` --> \u001b[31m"
  battery B dry "<b>" { tap B- tap B+45 }
  resistor R1 "a | b \\"> </table>" 30 ohms from B+45 to B-
  meant shock-hazard "<script>alert(4)</script>"
}`;

describe('the page of a sheet', () => {
  it.each(['five-tube-trf', 'crystal', 'bare-wiring'])('is well formed: %s', (example) => {
    expect(complaints(sheetPage(exampleSheet(example), undefined, digest))).toEqual([]);
  });

  it('runs nothing: no script, no handler, and a policy that lets in its own style alone', () => {
    const page = sheetPage(exampleSheet('five-tube-trf'), undefined, digest);
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(page) ?? [];
    const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(page) ?? [];
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain(`style-src 'sha256-${digest(style)}'`);
    expect(policy).not.toMatch(/script-src|unsafe/);
    expect(page).not.toMatch(/<script| (?:style|on\w+)=/);
    expect(page).not.toMatch(/(?:src|href)="(?!#)/);
  });

  it('has no id twice', () => {
    const page = sheetPage(exampleSheet('five-tube-trf'), undefined, digest);
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
  });

  it('takes hostile names and titles as words', () => {
    const page = sheetPage(sheetIn(hostile), undefined, digest);
    expect(complaints(page)).toEqual([]);
    expect(page).not.toMatch(/<script|<img|<b>/);
    expect(page).not.toContain('\u001b');
    expect(page).toContain('&lt;script&gt;alert(4)');
  });

  it('leads back only to pages', () => {
    const back = (href: string): string =>
      /class="back"><a href="([^"]*)"/.exec(
        sheetPage(sheetIn(hostile), undefined, digest, { back: { href, words: 'All sets' } }),
      )?.[1] ?? '';
    expect(
      ['../index.html', 'https://example.org/', 'javascript:alert(1)', 'data:x'].map(back),
    ).toEqual(['../index.html', 'https://example.org/', '#', '#']);
  });
});

describe('a sheet in Markdown', () => {
  it('names a picture for every chart, and makes it', () => {
    const { text, pictures } = sheetMarkdown(exampleSheet('five-tube-trf'), '<svg/>', 'five');
    const named = [...text.matchAll(/!\[[^\]]*\]\(([^)]*)\)/g)].map(([, name]) => name ?? '');
    expect(named).toEqual([...pictures.keys()]);
    expect(named).toEqual([
      'five-schematic.svg',
      'five-dials.svg',
      'five-response.svg',
      'five-response-2.svg',
      'five-response-3.svg',
    ]);
  });

  it('keeps every row of a table to its columns', () => {
    const { text } = sheetMarkdown(sheetIn(hostile), undefined);
    const lines = text.split('\n').filter((line) => line.startsWith('|'));
    const cells = (line: string) => line.replaceAll(/\\./g, '').split('|').length;
    let columns = 0;
    for (const [at, line] of lines.entries()) {
      if (/^\| -/.test(lines[at + 1] ?? '')) columns = cells(line);
      expect(cells(line), line).toBe(columns);
    }
    expect(text).not.toMatch(/(?<!\\)<|(?<!\\)\]\(j/);
    expect(text).not.toContain('\u001b');
  });
});

describe('the schematic of a sheet', () => {
  it('is the layout that prints largest, and of like ones the one with fewer rows', () => {
    const [wide, square, tall] = [
      { width: 2000, height: 400 },
      { width: 900, height: 900 },
      { width: 890, height: 1000 },
    ];
    expect(largestOnSheet([wide, square, tall])).toBe(square);
    expect(largestOnSheet([])).toBeUndefined();
  });
});
