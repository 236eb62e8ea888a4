import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from '../../../test/support/browser.ts';
import { page, subject, uri } from './support/fixture.ts';
import { openPreview } from './support/preview-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const table = {
  title: 'What has changed',
  heading: ['', 'how'],
  rows: [
    ['Changed', 'R1 is 3 meg now.'],
    ['Taken away', '<b>C5</b>'],
  ],
  about: ['R1', ''],
};

it('a row that is about a part leads to its line, and another does not', async () => {
  const preview = await openPreview(browser);
  await preview.tell(subject({ page: 'compare' }), page({ page: 'compare', tables: [table] }));
  const rows = preview.page.locator('.table tbody tr');
  await rows.nth(0).getByRole('button', { name: 'R1 is 3 meg now.' }).click();
  expect(await preview.said()).toContainEqual({ kind: 'reveal', uri, part: 'R1', stay: false });
  expect(await rows.nth(1).getByRole('button').count()).toBe(0);
  expect(await rows.nth(1).locator('td').textContent()).toBe('<b>C5</b>');
  expect(preview.troubles).toEqual([]);
  await preview.close();
});
