import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../support/browser.ts';

const root = join(import.meta.dirname, '../..');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let folder = '';
let browser: Browser;
let url = '';
/** A small set's, for what takes long. */
let small = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-tour-'));
  [url, small] = ['five-tube-trf', 'crystal'].map((example) => {
    const file = join(folder, `${example}.html`);
    const { status, stderr } = spawnSync(
      process.execPath,
      ['dist/setwright.cjs', 'tour', `examples/${example}.receiver`, '-o', file],
      { cwd: root, encoding: 'utf8' },
    );
    expect([status, stderr]).toEqual([0, '']);
    return pathToFileURL(file).href;
  }) as [string, string];
  browser = await openBrowser();
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Opened {
  readonly page: Page;
  /** What it asked for besides itself, and what it complained of. */
  readonly asked: string[];
  readonly complaints: string[];
}

async function open(
  hash = '',
  colorScheme: 'light' | 'dark' = 'light',
  reducedMotion: 'reduce' | 'no-preference' = 'reduce',
  address = url,
): Promise<Opened> {
  const context = await browser.newContext({ colorScheme, reducedMotion });
  const page = await context.newPage();
  const asked: string[] = [];
  const complaints: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith('blob:'))
      asked.push(request.url());
  });
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(`${address}${hash}`);
  return { page, asked, complaints };
}

/** Everything that the rules of accessibility find wrong with the page as it stands. */
async function violationsIn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  const found: readonly { id: string; nodes: readonly { html: string }[] }[] = await page.evaluate(
    'axe.run().then(({ violations }) => violations)',
  );
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

const heading = (page: Page) => page.locator('article:not([hidden]) h2').textContent();

describe('the page of a tour', () => {
  it.each(['light', 'dark'] as const)(
    'breaks no rule of accessibility on a %s ground, as a walk and as a handout',
    async (scheme) => {
      const { page } = await open('#plate-v1', scheme);
      expect(await violationsIn(page)).toEqual([]);
      await page.keyboard.press('p');
      await page.locator('article:not([hidden]) summary').click();
      expect(await violationsIn(page)).toEqual([]);
      await page.context().close();
      const handout = await open('#output', scheme, 'reduce', small);
      await handout.page.keyboard.press('h');
      expect(await violationsIn(handout.page)).toEqual([]);
      await handout.page.context().close();
    },
    30_000,
  );

  it('nor in print, where every step has its picture', async () => {
    const { page } = await open('', 'dark', 'reduce', small);
    await page.evaluate('dispatchEvent(new Event("beforeprint"))');
    await page.emulateMedia({ media: 'print' });
    expect(await violationsIn(page)).toEqual([]);
    const steps = await page.locator('article').count();
    expect(await page.locator('article .copy svg:visible').count()).toBe(steps);
    expect(await page.evaluate('getComputedStyle(document.body).backgroundColor')).toBe(
      'rgb(255, 255, 255)',
    );
    await page.context().close();
  }, 30_000);

  it('asks for nothing but itself, and its policy has nothing to forbid', async () => {
    const { page, asked, complaints } = await open();
    for (const key of ['ArrowRight', 'p', 'h', 'h', 'p']) await page.keyboard.press(key);
    expect([asked, complaints]).toEqual([[], []]);
    await page.context().close();
  });

  it('opens at the step that a link names, and follows another one', async () => {
    const { page } = await open('#bias-v3');
    // A detector's grid is told of where it detects.
    expect(await heading(page)).toBe('The set at a glance');
    await page.goto(`${url}#plate-v3`);
    expect(await heading(page)).toBe('The plate current of V3');
    await page.evaluate('location.hash = "#suppose-2"');
    await expect.poll(() => heading(page)).toBe('Suppose: first transformer burnt out');
    await page.context().close();
  });

  it('is walked by keys alone', async () => {
    const { page } = await open();
    await page.keyboard.press('ArrowRight');
    expect(await heading(page)).toBe('What feeds it');
    expect(new URL(page.url()).hash).toBe('#supplies');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('What feeds it');
    await page.keyboard.press('End');
    const last = await heading(page);
    await page.keyboard.press('ArrowRight');
    expect(await heading(page)).toBe(last);
    await page.keyboard.press('Home');
    // And by the buttons, which are reached one after another.
    await page.locator('#on').focus();
    await page.keyboard.press('Enter');
    expect(await heading(page)).toBe('What feeds it');
    await page.context().close();
  });

  it('lights one drawing and moves nothing in it', async () => {
    const { page } = await open('#plate-v1');
    const boxes = (): Promise<readonly string[]> =>
      page.evaluate(`[...document.querySelectorAll('.picture g[data-part]')].map((each) => {
        const { x, y } = each.getBoundingClientRect();
        return each.getAttribute('data-part') + ' ' + x + ' ' + y;
      })`);
    const before = await boxes();
    const isDim = (part: string) =>
      page
        .locator(`.picture g[data-part="${part}"]`)
        .first()
        .evaluate((each) => each.classList.contains('dimmed'));
    expect([await isDim('L2.plate'), await isDim('T1.primary')]).toEqual([false, true]);
    expect(await page.locator('.picture .layer.shown .path.radio').count()).toBeGreaterThan(3);
    await page.keyboard.press('ArrowRight');
    expect(await isDim('L2.plate')).toBe(true);
    expect(await boxes()).toEqual(before);
    await page.context().close();
  });

  it('lets currents flow where motion is welcome, and holds them still on request', async () => {
    const running = (page: Page) =>
      page.evaluate(
        "getComputedStyle(document.querySelector('.picture .layer.shown .path')).animationName",
      );
    const moving = await open('#plate-v1', 'light', 'no-preference');
    expect(await running(moving.page)).toBe('flow');
    await moving.page.keyboard.press('r');
    expect(await running(moving.page)).toBe('none');
    await moving.page.context().close();
    const still = await open('#plate-v1');
    expect(await running(still.page)).toBe('none');
    await still.page.context().close();
  });

  it('saves a step as an SVG and as a PNG, made in the page', async () => {
    const { page, complaints } = await open('#plate-v1');
    for (const [button, name, begins] of [
      ['Save SVG', 'lantern-cove-five-plate-v1.svg', '<svg'],
      ['Save PNG', 'lantern-cove-five-plate-v1.png', '\u0089PNG'],
    ] as const) {
      const waiting = page.waitForEvent('download');
      await page.getByRole('button', { name: button }).click();
      const download = await waiting;
      expect(download.suggestedFilename()).toBe(name);
      const kept = join(folder, name);
      await download.saveAs(kept);
      const bytes = readFileSync(kept);
      expect(bytes.toString('latin1').startsWith(begins)).toBe(true);
      expect(bytes.length).toBeGreaterThan(10_000);
      if (name.endsWith('.svg'))
        expect(bytes.toString('utf8').match(/class="layer/g)?.length).toBeLessThan(8);
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 30_000);

  it('fits a phone: nothing but the drawing is wider than the screen', async () => {
    const { page } = await open('#detection-v3');
    await page.setViewportSize({ width: 360, height: 740 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
    expect(await page.locator('.picture').isVisible()).toBe(true);
    await page.context().close();
  });

  it('is all there without script, one step below another', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(url);
    const steps = await page.locator('article').count();
    expect(await page.locator('article:visible').count()).toBe(steps);
    expect(await page.locator('.picture svg').isVisible()).toBe(true);
    expect(await page.getByRole('button').count()).toBe(0);
    await context.close();
  });
});
