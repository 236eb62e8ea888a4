import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../../../test/support/browser.ts';
import { choice, page, pageWith, part, subject, svgWith, symbol, uri } from './support/fixture.ts';
import { openPreview, type Preview } from './support/preview-page.ts';

let browser: Browser;
let preview: Preview;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
afterEach(async () => {
  expect(preview.troubles).toEqual([]);
  await preview.close();
});

const opened = async (
  ...options: Parameters<typeof openPreview> extends [unknown, ...infer Rest] ? Rest : never
) => {
  preview = await openPreview(browser, ...options);
  return preview.page;
};

const shown = async () => {
  const at = await opened();
  await preview.tell(subject(), page());
  return at;
};

/** The drawing's window over its paper, as the reader left it. */
const viewBox = async () => {
  await preview.kept();
  return preview.page.locator('.picture svg').first().getAttribute('viewBox');
};

describe('painting', () => {
  it('says that it listens, and nothing else of its own accord', async () => {
    await shown();
    expect(await preview.said()).toEqual([{ kind: 'ready' }]);
  });

  it('paints the picture with its parts, wires and letters', async () => {
    const at = await shown();
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
    expect(await at.locator('.picture .wire').count()).toBe(1);
    expect(await at.locator('.picture text').first().textContent()).toBe('R1');
  });

  it('takes the ink of the picture from the theme', async () => {
    const at = await shown();
    const ink = await at
      .locator('.picture .wire')
      .evaluate((wire) => getComputedStyle(wire).stroke);
    expect(ink).toBe('rgb(59, 59, 59)');
  });

  it('fits the whole drawing in at first', async () => {
    await shown();
    expect((await preview.kept())?.cameras['diagram 0']?.fitted).toBe(true);
  });

  it('follows a file whose versions begin anew, as of one that was closed and opened again', async () => {
    const at = await shown();
    await preview.tell(page({ version: 5 }));
    await preview.tell(page({ version: 1, svg: svgWith(symbol('R1', 10, 10)) }));
    expect(await at.locator('.picture [role=button]').count()).toBe(1);
  });

  it('drops a page of another file, and one that was no longer wanted', async () => {
    const at = await opened();
    await preview.tell(subject(), page({ uri: 'file:///other.receiver' }), page({ page: 'dials' }));
    expect(await at.locator('.picture svg').count()).toBe(0);
  });

  it('shows tables and notes, and does without a picture where there is none', async () => {
    const at = await opened();
    await preview.tell(
      subject({ page: 'dials' }),
      page({
        page: 'dials',
        svg: undefined,
        parts: {},
        notes: ['No dial drives C1.'],
        tables: [{ title: 'Dials', heading: ['station', 'D1'], rows: [['550 kc', '94.0']] }],
      }),
    );
    expect(await at.locator('.stage').isVisible()).toBe(false);
    expect(await at.locator('td').textContent()).toBe('94.0');
    expect(await at.locator('.notes').textContent()).toBe('No dial drives C1.');
  });

  it('shows a chart as wide as the panel, in the colors of the theme, above its tables', async () => {
    const at = await opened();
    await preview.tell(
      subject({ page: 'response' }),
      page({
        page: 'response',
        parts: {},
        svg: svgWith('<path class="c1" stroke="#fff" d="M0 0H9"/>', 700, 2000),
        tables: [{ title: 'Stations', heading: ['station'], rows: [['550 kc']] }],
      }),
    );
    expect(await at.locator('.stage').isVisible()).toBe(false);
    const box = (await at.locator('.chart svg').boundingBox())!;
    expect(box.width).toBeGreaterThan(800);
    expect(box.height / box.width).toBeCloseTo(2000 / 700, 1);
    const color = at.locator('.chart .c1').evaluate((curve) => getComputedStyle(curve).stroke);
    expect(await color).toBe('rgb(166, 61, 0)');
    expect((await at.locator('td, th').last().boundingBox())!.y).toBeGreaterThan(box.height);
  });

  it('ignores messages that are none', async () => {
    const at = await shown();
    await at.evaluate(() => {
      for (const wrong of [null, 7, 'page', {}, { kind: 'page', page: { svg: '<svg/>' } }]) {
        window.postMessage(wrong, '*');
      }
    });
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
  });
});

describe('while the text is edited', () => {
  it('keeps zoom and place', async () => {
    const at = await shown();
    await at.getByRole('button', { name: 'Zoom in' }).click();
    const before = await viewBox();
    await preview.tell(page({ version: 2 }));
    expect(await viewBox()).toBe(before);
  });

  it('moves along with the part in the middle when the drawing grows beside it', async () => {
    const at = await shown();
    await at.getByRole('button', { name: 'Zoom in' }).click();
    const before = (await preview.kept())?.cameras['diagram 0'];
    const moved = symbol('R1', 140, 100) + symbol('R2', 340, 100) + symbol('R3', 540, 300);
    await preview.tell(page({ version: 2, svg: svgWith(moved, 640) }));
    const after = (await preview.kept())?.cameras['diagram 0'];
    expect(after!.middle.x - before!.middle.x).toBeCloseTo(40, 6);
    expect(after!.scale).toBe(before!.scale);
  });

  it('keeps the last good picture and marks it while lines cannot be read', async () => {
    const at = await shown();
    await preview.tell(page({ version: 2, broken: true, svg: svgWith(symbol('R1', 9, 9)) }));
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
    expect(await at.getByRole('status').textContent()).toContain('last good picture');
    await preview.tell(page({ version: 3, svg: svgWith(symbol('R1', 9, 9)) }));
    expect(await at.locator('.picture [role=button]').count()).toBe(1);
    expect(await at.getByRole('status').isVisible()).toBe(false);
  });

  it('shows what can be read of a text that was broken from the start', async () => {
    const at = await opened();
    await preview.tell(subject(), page({ broken: true }));
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
    expect(await at.getByRole('status').textContent()).toContain('shows what can be');
  });

  it('keeps the picture and says why when the server fails', async () => {
    const at = await shown();
    await preview.tell({ kind: 'failed', uri, message: 'The server stopped.' });
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
    expect(await at.getByRole('status').textContent()).toContain('The server stopped.');
  });

  it('never takes the focus', async () => {
    const at = await shown();
    await preview.tell(page({ version: 2 }), { kind: 'lit', uri, parts: ['R2'] });
    expect(await at.evaluate(() => document.activeElement === document.body)).toBe(true);
  });
});

describe('between source and symbol', () => {
  it('asks for the line of a symbol that is clicked', async () => {
    const at = await shown();
    await at.locator('.picture g[data-part=R2]').click();
    expect((await preview.said()).at(-1)).toEqual({ kind: 'reveal', uri, part: 'R2', stay: false });
  });

  it('takes a name beside a symbol for the symbol', async () => {
    const at = await shown();
    await at.locator('.picture text[data-part=R3]').click();
    expect((await preview.said()).at(-1)).toMatchObject({ kind: 'reveal', part: 'R3' });
  });

  it('does not take a drag for a click', async () => {
    const at = await shown();
    const box = (await at.locator('.picture g[data-part=R2]').boundingBox())!;
    await at.mouse.move(box.x + 5, box.y + 20);
    await at.mouse.down();
    await at.mouse.move(box.x + 80, box.y + 60, { steps: 4 });
    await at.mouse.up();
    expect(await preview.said()).toEqual([{ kind: 'ready' }]);
    expect((await preview.kept())?.cameras['diagram 0']?.fitted).toBe(false);
  });

  it('lights the part at the cursor, with all that belongs to it', async () => {
    const at = await opened();
    const svg = svgWith(symbol('L1.grid', 100, 100) + symbol('L1.plate', 300, 100));
    const parts = { 'L1.grid': part('L1.grid', 3), 'L1.plate': part('L1.plate', 4) };
    await preview.tell(subject(), page({ svg, parts }), { kind: 'lit', uri, parts: ['L1'] });
    expect(await at.locator('.picture g.lit').count()).toBe(2);
    await preview.tell({ kind: 'lit', uri, parts: ['L1.grid'] });
    expect(await at.locator('.picture g.lit').getAttribute('data-part')).toBe('L1.grid');
  });

  it('points to a lit part that is out of sight, and goes there when asked', async () => {
    const at = await shown();
    for (let times = 0; times < 8; times += 1) {
      await at.getByRole('button', { name: 'Zoom in' }).click();
    }
    await preview.tell({ kind: 'lit', uri, parts: ['R3'] });
    await at.getByRole('button', { name: 'Show R3' }).click();
    const symbolBox = (await at.locator('.picture g[data-part=R3]').boundingBox())!;
    const stage = (await at.locator('.stage').boundingBox())!;
    expect(symbolBox.x).toBeGreaterThan(stage.x);
    expect(symbolBox.x).toBeLessThan(stage.x + stage.width);
  });

  it('says of a symbol what the editor says of its name, findings first', async () => {
    const at = await shown();
    await at.locator('.picture g[data-part=R1]').hover();
    const card = at.getByRole('tooltip');
    await card.waitFor();
    expect(await card.textContent()).toBe(
      'Error: The leak of V1 goes to the wrong side.R1 grid leak, 2 megohms',
    );
    await at.keyboard.press('Tab');
    await at.mouse.move(2, 2);
    await card.waitFor({ state: 'hidden' });
  });

  it('marks findings by a shape as well as by a color', async () => {
    const at = await shown();
    const shapes = await at
      .locator('.picture .finding .shape')
      .evaluateAll((all) => all.map((each) => each.getAttribute('d')));
    expect(shapes).toHaveLength(2);
    expect(new Set(shapes).size).toBe(2);
  });
});

describe('by keyboard', () => {
  it('goes from part to part in reading order, and to the line of one', async () => {
    const at = await shown();
    await at.locator('.stage').focus();
    for (const key of ['ArrowRight', 'ArrowRight', 'Enter']) await at.keyboard.press(key);
    expect((await preview.said()).at(-1)).toEqual({ kind: 'reveal', uri, part: 'R2', stay: false });
    for (const key of ['End', ' ']) await at.keyboard.press(key);
    expect((await preview.said()).at(-1)).toEqual({ kind: 'reveal', uri, part: 'R3', stay: true });
  });

  it('has one part in the Tab order', async () => {
    const at = await shown();
    expect(await at.locator('.picture [tabindex="0"]').count()).toBe(1);
  });

  it('goes from finding to finding', async () => {
    const at = await shown();
    await at.locator('.stage').focus();
    await at.keyboard.press('n');
    const focused = at.locator('.picture g:focus');
    expect(await focused.getAttribute('data-part')).toBe('R2');
    await at.keyboard.press('n');
    expect(await focused.getAttribute('data-part')).toBe('R1');
  });

  it('keeps the focus on a part that is drawn anew', async () => {
    const at = await shown();
    await at.locator('.stage').focus();
    for (const key of ['ArrowRight', 'ArrowRight']) await at.keyboard.press(key);
    await preview.tell(page({ version: 2 }));
    expect(await at.locator('.picture g:focus').getAttribute('data-part')).toBe('R2');
  });

  it('zooms, moves the paper and shows the whole again', async () => {
    const at = await shown();
    const whole = await viewBox();
    await at.locator('.stage').focus();
    for (const key of ['+', 'Shift+ArrowRight', '-', '1']) await at.keyboard.press(key);
    expect((await preview.kept())?.cameras['diagram 0']?.scale).toBe(1);
    await at.keyboard.press('0');
    expect(await viewBox()).toBe(whole);
  });

  it('reads a part as what it is and what is wrong with it', async () => {
    const at = await shown();
    const label = await at.locator('.picture g[data-part=R1]').getAttribute('aria-label');
    expect(label).toBe(
      'R1, grid leak of 2 megohms from V1.grid to A+. 1 error: The leak of V1 goes to the wrong side.',
    );
  });

  it('has the drawing in words', async () => {
    const at = await shown();
    await at.getByRole('button', { name: 'Parts in words' }).click();
    const items = at.locator('.parts li');
    expect(await items.count()).toBe(3);
    await items.nth(1).getByRole('button', { name: 'R2, grid leak' }).click();
    expect((await preview.said()).at(-1)).toMatchObject({ kind: 'reveal', part: 'R2' });
  });
});

describe('what can be chosen', () => {
  it('asks for another page by its tab, and by the arrow keys along the scale', async () => {
    const at = await shown();
    await at.getByRole('tab', { name: 'Bench' }).click();
    expect((await preview.said()).at(-1)).toMatchObject({ choice: { page: 'bench' } });
    await at.keyboard.press('ArrowRight');
    expect((await preview.said()).at(-1)).toMatchObject({ choice: { page: 'tour' } });
  });

  it('asks for a view, for symbols of the period, for numbers, for a receiver', async () => {
    const at = await shown();
    await at.getByLabel('View').selectOption('bias');
    await at.getByRole('button', { name: 'Period symbols' }).click();
    await at.getByRole('button', { name: 'Numbers' }).click();
    await at.getByLabel('Receiver').selectOption('1');
    expect((await preview.said()).at(-1)).toEqual({
      kind: 'choose',
      choice: { page: 'diagram', receiver: 1, view: 'bias', symbols: 'period', values: true },
      id: 4,
    });
  });

  it('keeps a choice that the client has not heard of when it last spoke', async () => {
    const at = await shown();
    const period = at.getByRole('button', { name: 'Period symbols' });
    await period.click();
    await at.getByRole('button', { name: 'Numbers' }).click();
    await preview.tell(subject({ symbols: 'period' }, false, 1));
    expect(await at.getByRole('button', { name: 'Numbers' }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    await preview.tell(subject({}, false, 2));
    expect(await period.getAttribute('aria-pressed')).toBe('false');
  });

  it('is busy from a choice until its page is painted, and drops pages of older choices', async () => {
    const at = await shown();
    const isBusy = () => at.locator('#page').getAttribute('aria-busy');
    expect(await isBusy()).toBe('false');
    await at.getByRole('button', { name: 'Period symbols' }).click();
    await at.getByRole('button', { name: 'Numbers' }).click();
    await preview.tell(page({ version: 2, svg: svgWith(symbol('R1', 10, 10)) }, 1));
    expect(await isBusy()).toBe('true');
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
    await preview.tell(page({ version: 2, svg: svgWith(symbol('R1', 10, 10)) }, 2));
    expect(await isBusy()).toBe('false');
    expect(await at.locator('.picture [role=button]').count()).toBe(1);
  });

  it('stays with a file when it is pinned', async () => {
    const at = await shown();
    await at.getByRole('button', { name: 'Pin' }).click();
    expect((await preview.said()).at(-1)).toEqual({ kind: 'pin', pinned: true });
  });

  it('keeps the drawing in every form, from the keyboard', async () => {
    const at = await shown();
    await at.getByRole('button', { name: 'Keep' }).press('Enter');
    await at.keyboard.press('ArrowDown');
    await at.keyboard.press('Enter');
    expect((await preview.said()).at(-1)).toEqual({ kind: 'export', format: 'svg-dark' });
  });

  it('makes a PNG of an SVG', async () => {
    await shown();
    await preview.tell({ kind: 'points', id: 3, svg: pageWith().svg!, to: 'file' });
    await expect.poll(async () => (await preview.said()).at(-1)?.kind).toBe('points');
    const answer = (await preview.said()).at(-1) as { id: number; png: string };
    const bytes = Buffer.from(answer.png, 'base64');
    expect(answer.id).toBe(3);
    expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG');
    // Twice the size of the drawing.
    expect(bytes.readUInt32BE(16)).toBe(1200);
  });

  it('puts the drawing on the clipboard as a picture', async () => {
    const at = await shown();
    await preview.tell({ kind: 'points', id: 4, svg: pageWith().svg!, to: 'clipboard' });
    await expect
      .poll(async () => (await preview.said()).at(-1))
      .toMatchObject({
        kind: 'points',
        id: 4,
      });
    const kinds = await at.evaluate(async () =>
      (await navigator.clipboard.read()).flatMap(({ types }) => [...types]),
    );
    expect(kinds).toContain('image/png');
  });
});

describe('the tour', () => {
  const layer = (step: number) =>
    `<g class="layer" data-layer="${step}"><path class="path radio" d="M20 2${step}H500" fill="none" stroke="#00f"/></g>`;
  const svg = svgWith(
    symbol('R1', 100, 100).replace('class="part', 'data-n="0" class="part') +
      symbol('R2', 300, 100).replace('class="part', 'data-n="1" class="part') +
      [0, 1, 2].map(layer).join(''),
  );
  const steps = [
    { title: 'The leak', words: ['It lets the grid down.'], parts: ['R1'], dimmed: [1] },
    { title: 'The other', words: ['It does too.'], parts: ['R2'], dimmed: [0] },
    { title: 'Both', words: ['Down they go.'], parts: ['R1', 'R2'], dimmed: [] },
  ].map((step) => ({ ...step, spoken: `The drawing shows: ${step.title}.` }));
  const toured = async (options: Parameters<typeof opened>[0] = {}) => {
    const at = await opened(options);
    await preview.tell(subject({ page: 'tour' }), page({ page: 'tour', svg, steps }));
    return at;
  };
  const title = (at: typeof preview.page) => at.locator('.tour h2').textContent();
  const layersSeen = (at: typeof preview.page) =>
    at
      .locator('.picture [data-layer]')
      .evaluateAll((all) =>
        all
          .filter((each) => getComputedStyle(each).display !== 'none')
          .map((each) => each.getAttribute('data-layer')),
      );

  it('draws the way of each step over the set, and dims what it does not speak of', async () => {
    const at = await toured();
    const dimmed = () => at.locator('.picture .dimmed').getAttribute('data-part');
    expect([await title(at), await layersSeen(at), await dimmed()]).toEqual([
      'The leak',
      ['0'],
      'R2',
    ]);
    await at.getByRole('button', { name: 'Next' }).click();
    expect([await title(at), await layersSeen(at), await dimmed()]).toEqual([
      'The other',
      ['1'],
      'R1',
    ]);
    expect(await at.locator('.picture svg').first().getAttribute('aria-label')).toBe(
      'The drawing shows: The other.',
    );
  });

  it('moves nothing from step to step', async () => {
    const at = await toured();
    const before = [await viewBox(), await at.locator('.stage').boundingBox()];
    await at.getByRole('button', { name: 'Next' }).click();
    expect([await viewBox(), await at.locator('.stage').boundingBox()]).toEqual(before);
  });

  it('leaves a reader where they looked, but shows them the way of the step they turn to', async () => {
    const at = await toured();
    for (let times = 0; times < 10; times += 1) {
      await at.getByRole('button', { name: 'Zoom in' }).click();
    }
    await at.locator('.stage').focus();
    for (let times = 0; times < 8; times += 1) await at.keyboard.press('Shift+ArrowDown');
    const before = await viewBox();
    await preview.tell(page({ page: 'tour', svg, steps, version: 2 }));
    expect(await viewBox()).toBe(before);
    await at.getByRole('button', { name: 'Next' }).click();
    expect(await viewBox()).not.toBe(before);
  });

  it('is walked by keys, and ends at its ends', async () => {
    const at = await toured();
    const walk: string[] = [];
    for (const key of ['b', 'n', 'PageDown', 'n', 'PageUp', 'Home', 'End']) {
      await at.keyboard.press(key);
      walk.push((await title(at)) ?? '');
    }
    expect(walk).toEqual([
      'The leak',
      'The other',
      'Both',
      'Both',
      'The other',
      'The leak',
      'Both',
    ]);
  });

  it('leaves the arrow keys to the drawing and to the scale of pages', async () => {
    const at = await toured();
    await at.locator('.stage').focus();
    await at.keyboard.press('ArrowRight');
    expect(await title(at)).toBe('The leak');
    await at.getByRole('tab', { name: 'Tour' }).focus();
    await at.keyboard.press('PageDown');
    expect(await title(at)).toBe('The other');
    await at.keyboard.press('ArrowRight');
    expect((await preview.said()).at(-1)).toMatchObject({ choice: { page: 'compare' } });
  });

  it('keeps the focus on the button at the last step', async () => {
    const at = await toured();
    const next = at.getByRole('button', { name: 'Next' });
    await next.focus();
    for (let times = 0; times < 3; times += 1) await at.keyboard.press('Enter');
    expect(await title(at)).toBe('Both');
    expect(await next.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await next.getAttribute('aria-disabled')).toBe('true');
  });

  it('runs along its way where motion is welcome, and stands still on request', async () => {
    const at = await toured({ motion: true });
    const animation = () =>
      at.locator('.picture .told .path').evaluate((path) => getComputedStyle(path).animationName);
    expect(await animation()).toBe('run');
    await at.keyboard.press('r');
    expect(await animation()).toBe('none');
    expect((await preview.kept())?.runs).toBe(false);
  });

  it('stands still, and offers nothing else, where less motion is wanted', async () => {
    const at = await toured();
    const path = at.locator('.picture .told .path');
    expect(await path.evaluate((each) => getComputedStyle(each).animationName)).toBe('none');
    expect(await at.getByRole('button', { name: 'Let it run' }).isVisible()).toBe(false);
  });

  it('stays at its step when the text is edited, and after a reload', async () => {
    const at = await toured();
    await at.keyboard.press('n');
    await preview.tell(page({ page: 'tour', svg, steps, version: 2 }));
    expect([await title(at), await layersSeen(at)]).toEqual(['The other', ['1']]);
    const kept = await preview.kept();
    await preview.close();
    const again = await toured({ kept });
    expect([await title(again), await layersSeen(again)]).toEqual(['The other', ['1']]);
  });

  it('shows none of it on the other pages', async () => {
    const at = await toured();
    await at.getByRole('tab', { name: 'Diagram' }).click();
    await preview.tell(subject({}, false, 1), page({ svg }, 1));
    expect(await layersSeen(at)).toEqual([]);
    expect(await at.locator('.picture .dimmed').count()).toBe(0);
  });
});

describe('after a reload of the window', () => {
  const kept = {
    uri,
    title: 'cove.receiver',
    choice: { ...choice, symbols: 'period' },
    pinned: true,
    cameras: { 'diagram 0': { middle: { x: 300, y: 200 }, scale: 2, fitted: false } },
    list: true,
    step: 0,
    runs: true,
  };
  const middleSeen = async () => {
    const [x = 0, y = 0, width = 0, height = 0] = (await viewBox())?.split(' ').map(Number) ?? [];
    return { x: x + width / 2, y: y + height / 2 };
  };

  it('is as it was: page, zoom and place, list', async () => {
    const at = await opened({ kept });
    await preview.tell(subject({ symbols: 'period' }, true), page());
    expect(await middleSeen()).toEqual({ x: 300, y: 200 });
    expect(await at.locator('.zoom .share').textContent()).toBe('200 %');
    expect(await at.locator('.parts li').count()).toBe(3);
    const pressed = at.locator('.bar [aria-pressed=true]');
    expect(await pressed.allTextContents()).toEqual(['Period symbols', 'Pin']);
  });

  it('stands where it stood though the window is of another size, and was tiny for a moment', async () => {
    const at = await opened({ kept, width: 700, height: 600 });
    await at.setViewportSize({ width: 120, height: 90 });
    await preview.tell(subject({ symbols: 'period' }, true), page());
    await at.setViewportSize({ width: 1000, height: 900 });
    expect(await middleSeen()).toEqual({ x: 300, y: 200 });
    expect((await preview.kept())?.cameras['diagram 0']).toEqual(kept.cameras['diagram 0']);
  });

  it('has lost nothing that was done in the instant before', async () => {
    const at = await opened({ kept });
    await preview.tell(subject({ symbols: 'period' }, true), page());
    // Nothing is painted in between: what is kept is kept at once.
    const scale = await at.evaluate(() => {
      document.querySelector<HTMLElement>('button[title^="Zoom in"]')?.click();
      const { state } = (
        window as unknown as { editor: { state: { cameras: Record<string, { scale: number }> } } }
      ).editor;
      return state.cameras['diagram 0']?.scale;
    });
    expect(scale).toBe(2.5);
  });

  it('begins anew when what was kept makes no sense', async () => {
    const at = await opened({ kept: { uri: 3, cameras: 'none' } });
    await preview.tell(subject(), page());
    expect(await at.locator('.picture [role=button]').count()).toBe(3);
  });
});
