import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { examples, setwright } from './command.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let folder = '';
let browser: Browser;
const made = new Map<string, string>();

/** The sheets that are looked at, by example: the common set, and one of which little is known. */
const names = ['five-tube-trf', 'bare-wiring'] as const;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-sheet-'));
  for (const name of names) {
    const file = join(folder, `${name}.html`);
    const { status, stderr } = setwright([
      'report',
      join(examples, `${name}.receiver`),
      '-o',
      file,
    ]);
    expect([status, stderr]).toEqual([0, '']);
    made.set(name, pathToFileURL(file).href);
  }
  browser = await openBrowser();
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open(name: (typeof names)[number]) {
  const page = await browser.newPage();
  const asked: string[] = [];
  const complaints: string[] = [];
  const address = made.get(name) ?? '';
  page.on('request', (request) => {
    if (!request.url().startsWith(address)) asked.push(request.url());
  });
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(address);
  return { page, asked, complaints };
}

async function violationsIn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  const found: readonly { id: string; nodes: readonly { html: string }[] }[] = await page.evaluate(
    'axe.run().then(({ violations }) => violations)',
  );
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

/** Millimetres of a sheet of paper, and of what a printer leaves white at its sides. */
const papers = { A4: 210, Letter: 215.9 } as const;
const MARGIN = 12;
const DOTS = 96 / 25.4;

describe('the page of a service sheet', () => {
  it.each(names)(
    'breaks no rule of accessibility, on a screen large or small and in print: %s',
    async (name) => {
      const { page } = await open(name);
      expect(await violationsIn(page)).toEqual([]);
      await page.setViewportSize({ width: 360, height: 740 });
      expect(await violationsIn(page)).toEqual([]);
      await page.emulateMedia({ media: 'print' });
      expect(await violationsIn(page)).toEqual([]);
      await page.close();
    },
    30_000,
  );

  it('asks for nothing, and its policy has nothing to forbid', async () => {
    const { page, asked, complaints } = await open('five-tube-trf');
    expect([asked, complaints]).toEqual([[], []]);
    await page.close();
  });

  it.each([360, 768, 1280])('is no wider than a screen of %i dots', async (width) => {
    const { page } = await open('five-tube-trf');
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    await page.close();
  });

  it.each(Object.entries(papers))('has nothing cut off at the side of %s', async (_, wide) => {
    const { page } = await open('five-tube-trf');
    const width = Math.floor((wide - 2 * MARGIN) * DOTS);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width, height: 1000 });
    const beyond: readonly string[] = await page.evaluate(
      `[...document.querySelectorAll('table, figure, h2, p, dd, svg')]
        .filter((each) => each.getBoundingClientRect().right > ${width} + 0.5)
        .map((each) => each.outerHTML.slice(0, 80))`,
    );
    expect(beyond).toEqual([]);
    await page.close();
  });

  it.each(['A4', 'Letter'] as const)(
    'prints on %s in so many pages as it needs',
    async (format) => {
      const { page } = await open('bare-wiring');
      const paper = await page.pdf({ format });
      const pages = paper.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
      expect(pages).toBeGreaterThan(4);
      expect(pages).toBeLessThan(13);
      await page.close();
    },
    30_000,
  );

  it('prints black on white, whatever the screen likes', async () => {
    const { page } = await open('bare-wiring');
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(
      await page.evaluate(
        '[getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor]',
      ),
    ).toEqual(['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
    await page.close();
  });

  it('is all there without script', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(made.get('five-tube-trf') ?? '');
    expect(await page.locator('section:visible').count()).toBeGreaterThan(10);
    expect(await page.locator('figure.drawing svg').isVisible()).toBe(true);
    await context.close();
  });
});
