import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../../../test/support/browser.ts';
import { page, part, subject, svgWith, symbol } from './support/fixture.ts';
import { openPreview, type Preview } from './support/preview-page.ts';

let browser: Browser;
let preview: Preview;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
afterEach(async () => {
  // That the page's policy refuses a hostile style is as it should be.
  const troubles = preview.troubles.filter((each) => !each.startsWith('Applying inline style'));
  expect(troubles).toEqual([]);
  await preview.close();
});

/** Shows a picture and gives the markup that came of it. */
async function markupOf(svg: string): Promise<string> {
  preview = await openPreview(browser);
  await preview.tell(subject(), page({ svg, parts: { R1: part('R1', 1) } }));
  return preview.page.locator('.picture').evaluate((host) => host.shadowRoot!.innerHTML);
}

describe('a hostile picture', () => {
  const hostile: readonly (readonly [string, string, RegExp])[] = [
    ['a script', '<script>window.hurt = 1</script>', /script/i],
    [
      'a handler',
      '<path onclick="window.hurt=1" ONLOAD="x()" d="M0 0H9"/>',
      /onclick|onload|hurt/i,
    ],
    [
      'foreign markup',
      '<foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="https://e.test"/></foreignObject>',
      /foreign|iframe/i,
    ],
    ['an image from elsewhere', '<image href="https://e.test/x.png"/>', /image|e\.test/],
    ['a link', '<a href="javascript:window.hurt=1"><path d="M0 0H9"/></a>', /javascript|<a[ >]/i],
    [
      'a use of another file',
      '<use href="https://e.test/x.svg#a"/><use xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="data:x"/>',
      /e\.test|data:/,
    ],
    ['an animation that sets an address', '<animate attributeName="href" to="x"/>', /animate/],
    ['a style of its own', '<path style="position:fixed" d="M0 0H9"/>', /position/],
    ['a fill from elsewhere', '<path fill="url(https://e.test/p)" d="M0 0H9"/>', /e\.test/],
  ];

  for (const [what, inner, forbidden] of hostile) {
    it(`is shown without ${what}`, async () => {
      const markup = await markupOf(svgWith(inner + symbol('R1', 50, 50)));
      expect(markup).not.toMatch(forbidden);
      expect(markup).toContain('data-part="R1"');
      expect(await preview.page.evaluate(() => 'hurt' in window)).toBe(false);
    });
  }

  it('keeps a clip by its own name', async () => {
    const clip = '<clipPath id="p"><rect width="9" height="9"/></clipPath>';
    const markup = await markupOf(
      svgWith(`${clip}<path clip-path="url(#p)" d="M0 0H9"/>${symbol('R1', 50, 50)}`),
    );
    expect(markup).toContain('clip-path="url(#p)"');
  });

  it('is refused when it is no XML, and that is told', async () => {
    preview = await openPreview(browser);
    await preview.tell(subject(), page({ svg: '<svg xmlns="http://www.w3.org/2000/svg"><g>' }));
    expect((await preview.said()).at(-1)).toMatchObject({ kind: 'trouble' });
    expect(await preview.page.locator('.stage').isVisible()).toBe(false);
  });

  it('may fetch nothing by its style', async () => {
    const markup = await markupOf(
      svgWith(symbol('R1', 50, 50)).replace('<style>', '<style>@import "https://e.test/x.css";'),
    );
    expect(markup).not.toContain('e.test');
  });
});

describe('hostile words', () => {
  const words = '<img src=x onerror="window.hurt=1"> [x](javascript:alert(1)) <script>1</script>';

  it('are words in the card of a symbol', async () => {
    preview = await openPreview(browser);
    const parts = {
      R1: part('R1', 1, { hover: words, findings: [{ severity: 'error', message: words }] }),
    };
    await preview.tell(subject(), page({ svg: svgWith(symbol('R1', 50, 50)), parts }));
    await preview.page.locator('.picture g[data-part=R1]').hover();
    const card = preview.page.getByRole('tooltip');
    await card.waitFor();
    expect(await card.locator('img, script, a').count()).toBe(0);
    expect(await card.textContent()).toContain('<img src=x onerror="window.hurt=1">');
  });

  it('are words in tables, notes, titles, views and steps', async () => {
    preview = await openPreview(browser);
    await preview.tell(
      { ...subject({ page: 'tour' }), title: words } as never,
      page({
        page: 'tour',
        receivers: [words, words],
        views: [
          { id: words, title: words },
          { id: 'b', title: words },
        ],
        notes: [words],
        tables: [{ title: words, heading: [words], rows: [[words]] }],
        steps: [{ title: words, words: [words], parts: [words], dimmed: [], spoken: words }],
      }),
    );
    expect(await preview.page.locator('img, a, main script').count()).toBe(0);
    expect(await preview.page.evaluate(() => 'hurt' in window)).toBe(false);
  });

  it('are names of parts', async () => {
    preview = await openPreview(browser);
    const name = '"><img src=x onerror=hurt=1>';
    const safe = name.replaceAll('"', '&quot;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
    await preview.tell(
      subject(),
      page({ svg: svgWith(symbol(safe, 50, 50)), parts: { [name]: part(name, 1) } }),
    );
    await preview.page.locator('.picture [role=button]').click();
    expect((await preview.said()).at(-1)).toMatchObject({ kind: 'reveal', part: name });
    expect(await preview.page.locator('.picture img').count()).toBe(0);
  });
});
