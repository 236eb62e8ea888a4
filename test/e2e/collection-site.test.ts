import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { folderWith, newFolder } from './collection-support.ts';
import { setwright } from './command.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** A crystal set, of which a page is made in no time. */
const crystal = (title: string, year: number) => `receiver ${JSON.stringify(title)} {
  year ${year}
  post ANT aerial
  post GND ground
  coil L1 {
    form 3 in
    winding secondary 60 turns of 22 DCC from ANT to GND
  }
  condenser C1 variable .0005 mfd across L1.secondary
  crystal CR1 from L1.secondary.start to PH1.start
  phones PH1 2000 ohms to GND
}
`;
const hostile = "<script>alert(1)</script>'><img src=x onerror=alert(2)>";
const files = {
  'sets/beacon.receiver': crystal('Lantern Cove Beacon', 1923),
  'sets/attic/beacon.receiver': crystal('Lantern Cove Attic', 1922),
  'sets/attic/<b onclick=alert(3)> #1?.receiver': crystal(hostile, 1924),
  'sets/binary.receiver': Uint8Array.of(65, 0),
  'sets/lib/tubes.receiver': 'tube type 7-X "none" { filament 5 V 0.25 A }\n',
};
const report = (folder: string, ...more: string[]) =>
  setwright(['report', '--collection', 'sets', '-o', 'site', ...more], { cwd: folder });
const pages = (folder: string) => readdirSync(join(folder, 'site/sets')).sort();
const index = (folder: string) => readFileSync(join(folder, 'site/index.html'), 'utf8');

describe('the pages of a collection', () => {
  it('are one for each set and an index, and tell what could not be read', () => {
    const folder = folderWith(files);
    const { status, stdout, stderr } = report(folder);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^setwright: binary\.receiver: it is no text: .*\n$/);
    expect(pages(folder)).toEqual([
      expect.stringMatching(/^b-onclick-alert-3-1-[0-9a-f]{12}\.html$/),
      expect.stringMatching(/^beacon-[0-9a-f]{12}\.html$/),
      expect.stringMatching(/^beacon-[0-9a-f]{12}\.html$/),
    ]);
    for (const name of pages(folder)) expect(index(folder)).toContain(`href="sets/${name}"`);
    expect(index(folder)).toContain('<b>binary.receiver</b>: it is no text');
    expect(index(folder)).toContain('<li>lib/tubes.receiver</li>');
  });

  it('are not written again while they stay as they are, and go with their sets', () => {
    const folder = folderWith(files);
    report(folder);
    const before = index(folder);
    const times = () =>
      [...pages(folder).map((name) => `sets/${name}`), 'index.html'].map(
        (name) => statSync(join(folder, 'site', name)).mtimeMs,
      );
    const first = times();
    report(folder, '--cache', 'kept');
    report(folder, '--cache', 'kept');
    expect(times()).toEqual(first);
    expect(index(folder)).toBe(before);
    writeFileSync(join(folder, 'site/sets/mine.html'), 'mine');
    rmSync(join(folder, 'sets/beacon.receiver'));
    report(folder, '--cache', 'kept');
    expect(pages(folder)).toHaveLength(3);
    expect(pages(folder)).toContain('mine.html');
    expect(index(folder)).not.toContain('Lantern Cove Beacon');
  });

  it('are made again where the cache has them and the folder has not', () => {
    const folder = folderWith(files);
    report(folder, '--cache', 'kept');
    const [name = ''] = pages(folder);
    const page = readFileSync(join(folder, 'site/sets', name), 'utf8');
    writeFileSync(join(folder, 'site/sets', name), 'spoiled');
    report(folder, '--cache', 'kept');
    expect(readFileSync(join(folder, 'site/sets', name), 'utf8')).toBe(page);
  });

  it('are written over no page of another kind, and into no file', () => {
    const folder = folderWith({ ...files, 'site/index.html': '<h1>Welcome</h1>' });
    const { status, stderr } = report(folder);
    expect([status, stderr]).toEqual([
      2,
      expect.stringContaining('the index.html in it is not of a collection'),
    ]);
    expect(index(folder)).toBe('<h1>Welcome</h1>');
    expect(existsSync(join(folder, 'site/sets'))).toBe(false);
    const other = folderWith({ ...files, site: 'a file' });
    expect(report(other).stderr).toContain('site cannot be the folder of the pages: it is a file');
    mkdirSync(join(folder, 'empty'));
    const empty = setwright(['report', '--collection', 'empty', '-o', 'out'], { cwd: folder });
    expect([empty.status, empty.stderr]).toEqual([
      2,
      expect.stringContaining('no set in this folder'),
    ]);
    const nowhere = setwright(['report', '--collection', 'sets'], { cwd: folder });
    expect([nowhere.status, nowhere.stderr]).toEqual([
      2,
      expect.stringContaining('need a folder of their own'),
    ]);
  });
});

describe('the index in a browser', () => {
  let browser: Browser;
  let url = '';
  let folder = '';

  beforeAll(async () => {
    folder = newFolder(files);
    report(folder);
    url = pathToFileURL(join(folder, 'site/index.html')).href;
    browser = await openBrowser();
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  interface Look {
    readonly width?: number;
    readonly colorScheme?: 'light' | 'dark';
    readonly javaScriptEnabled?: boolean;
    readonly bypassCSP?: boolean;
  }
  async function open(look: Look, act: (page: Page) => Promise<void>): Promise<string[]> {
    const { width = 1280, ...more } = look;
    const context = await browser.newContext({ viewport: { width, height: 800 }, ...more });
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('dialog', (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on('request', (request) => {
      if (!request.url().startsWith('file:')) complaints.push(request.url());
    });
    await page.goto(url);
    await act(page);
    await context.close();
    return complaints;
  }
  const titles = (page: Page) => page.locator('tbody tr:visible th').allTextContents();

  it('searches and sorts by keyboard, and runs nothing else', async () => {
    const complaints = await open({}, async (page) => {
      expect(await page.locator('#count').textContent()).toBe('3 sets');
      await page.keyboard.press('/');
      await page.keyboard.type('attic beacon');
      await expect.poll(() => page.locator('#count').textContent()).toBe('1 of 3 sets');
      expect(await titles(page)).toEqual(['Lantern Cove Attic']);
      await page.keyboard.press('Escape');
      expect(await titles(page)).toHaveLength(3);
      await page.locator('thead button', { hasText: 'Year' }).focus();
      await page.keyboard.press('Enter');
      expect((await titles(page))[0]).toBe('Lantern Cove Attic');
      await page.keyboard.press('Enter');
      expect((await titles(page))[0]).toBe(hostile);
      expect(await page.locator('th[aria-sort=descending]').textContent()).toBe('Year');
      await page.locator('tbody a').first().click();
      await page.locator('.back a, a', { hasText: 'All sets' }).first().click();
      expect(page.url()).toBe(url);
    });
    expect(complaints).toEqual([]);
  });

  it('is a plain table without script', async () => {
    const complaints = await open({ javaScriptEnabled: false }, async (page) => {
      expect(await titles(page)).toHaveLength(3);
      expect(await page.locator('#search').isVisible()).toBe(false);
    });
    expect(complaints).toEqual([]);
  });

  it('fits a phone', async () => {
    await open({ width: 360 }, async (page) => {
      const width = await page.evaluate('document.documentElement.scrollWidth');
      expect(width).toBe(360);
      await page.locator('thead button', { hasText: 'Set' }).click();
      expect((await titles(page))[0]).toBe(hostile);
    });
  });

  it.each<Look>([{}, { colorScheme: 'dark' }, { width: 360 }])(
    'has nothing against it for those who hear or magnify it: %o',
    async (look) => {
      await open({ ...look, bypassCSP: true }, async (page) => {
        await page.evaluate(axe);
        const found = await page.evaluate('axe.run()');
        const { violations } = found as { violations: { id: string }[] };
        expect(violations.map(({ id }) => id)).toEqual([]);
      });
    },
  );
});
