import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../../../test/support/browser.ts';
import { contrast } from './support/contrast.ts';
import { page, subject, uri } from './support/fixture.ts';
import { openPreview, type Preview } from './support/preview-page.ts';
import { themes } from './support/themes.ts';

const axeSource = readFileSync(
  createRequire(import.meta.url).resolve('axe-core/axe.min.js'),
  'utf8',
);

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** Everything that the rules of accessibility find wrong with the page as it stands. */
async function violationsOf({ page: at }: Preview): Promise<readonly string[]> {
  await at.evaluate(axeSource);
  const { violations } = await at.evaluate(() =>
    (window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } }).axe.run(),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
  );
}

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

for (const theme of themes) {
  describe(`in the ${theme.name} theme`, () => {
    let preview: Preview;
    beforeAll(async () => {
      preview = await openPreview(browser, { theme });
      await preview.tell(subject(), page({ notes: ['Taken for granted: close-wound.'] }), {
        kind: 'lit',
        uri,
        parts: ['R2'],
      });
    });
    afterAll(() => preview.close());

    it('the rules of accessibility find nothing wrong with the diagram', async () => {
      expect(await violationsOf(preview)).toEqual([]);
    });

    it('nor with a stale picture, its list in words, an open menu and a card', async () => {
      await preview.tell(page({ version: 2, broken: true }));
      await preview.page.getByRole('button', { name: 'Parts in words' }).click();
      await preview.page.getByRole('button', { name: 'Keep' }).click();
      await preview.page.locator('.picture g[data-part=R1]').hover();
      await preview.page.getByRole('tooltip').waitFor();
      expect(await violationsOf(preview)).toEqual([]);
    });

    it('nor with tables and the tour', async () => {
      await preview.page.keyboard.press('Escape');
      await preview.tell(
        subject({ page: 'tour' }),
        page({
          version: 3,
          page: 'tour',
          tables: [{ title: 'Dials', heading: ['station', 'D1'], rows: [['550 kc', '94.0']] }],
          steps: [
            {
              title: 'The leak',
              words: ['It lets the grid down.'],
              parts: ['R1'],
              dimmed: [],
              spoken: 'The leak is lit.',
            },
          ],
        }),
      );
      expect(await violationsOf(preview)).toEqual([]);
    });

    it('nor with a chart', async () => {
      await preview.tell(
        subject({ page: 'dials' }),
        page({
          version: 4,
          page: 'dials',
          parts: {},
          tables: [{ title: 'Dials', heading: ['station'], rows: [['550 kc']] }],
        }),
      );
      expect(await violationsOf(preview)).toEqual([]);
    });

    it('lines stand out 3 to 1 and letters 4.5 to 1', async () => {
      const colors = await preview.page.evaluate(() => {
        const style = getComputedStyle(document.body);
        const names = [
          ...['ink', 'faint', 'lit', 'focus', 'error', 'warning', 'information', 'hint'],
          ...['direct', 'radio', 'audio', 'feedback', 'oscillator', 'failed', 'changed', 'figure'],
          ...[0, 1, 2, 3, 4, 5].map((index) => `curve-${index}`),
        ];
        // A custom property is read as a color by giving it to something.
        const probe = document.body.appendChild(document.createElement('i'));
        const read = (value: string): string => {
          probe.style.color = value;
          return getComputedStyle(probe).color;
        };
        const found = names.map((name) => [name, read(`var(--setwright-${name})`)] as const);
        const ground = style.backgroundColor;
        const frame = read('var(--firm-line)');
        probe.remove();
        return { ground, found: [...found, ['frame', frame] as const] };
      });
      for (const [name, color] of colors.found) {
        const least = ['ink', 'faint', 'figure', 'changed', 'failed'].includes(name) ? 4.5 : 3;
        expect(contrast(color, colors.ground), `${name}: ${color}`).toBeGreaterThanOrEqual(least);
      }
    });
  });
}
