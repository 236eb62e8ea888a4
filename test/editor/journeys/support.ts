import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, FrameLocator, Locator, Page } from 'playwright-core';
import { openBrowser, workbench } from '../editor.mjs';

/** What run.mjs started, and the folder with the sets. */
const editor = JSON.parse(process.env.SETWRIGHT_WORKBENCH ?? '{}') as {
  readonly address: string;
  readonly authority: string;
};
const sets = process.env.SETWRIGHT_SETS ?? '';
const pictures = process.env.SETWRIGHT_PICTURES;

export const textOf = (name: string): string =>
  readFileSync(join(sets, `${name}.receiver`), 'utf8');

/** A workbench in a browser, as a person sees it. */
export interface Desk {
  readonly page: Page;
  /** Opens a set by its name. */
  open(name: string): Promise<void>;
  /** Runs a command by its title, as from the palette. */
  command(title: string): Promise<void>;
  /** Puts the keys into the text. */
  intoText(): Promise<void>;
  /** Puts the cursor on a line and column, from 1. */
  goTo(line: number, column?: number): Promise<void>;
  /** Line and column of the cursor, from 1. */
  cursor(): Promise<{ readonly line: number; readonly column: number }>;
  /** The page of the preview. */
  preview(): FrameLocator;
  symbol(part: string): Locator;
  setTheme(name: string): Promise<void>;
  /** Closes whatever lies over the workbench. */
  calm(): Promise<void>;
  /** Keeps a picture of the window where SETWRIGHT_PICTURES says, if it does. */
  picture(name: string): Promise<void>;
  close(): Promise<void>;
}

let browser: Browser | undefined;

export const closeBrowser = async (): Promise<void> => browser?.close();

export async function openDesk(viewport = { width: 1500, height: 900 }): Promise<Desk> {
  browser ??= await openBrowser();
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  page.setDefaultTimeout(25_000);
  await page.goto(workbench(editor, sets));
  await page.locator('.monaco-workbench .part.editor').waitFor();
  await page.locator('.explorer-folders-view').waitFor();

  const input = page.locator('.quick-input-widget input[type=text]');
  /** Writes into the box above the workbench and takes the first it offers. */
  const take = async (keys: string, words: string): Promise<void> => {
    await page.keyboard.press(keys);
    await input.waitFor();
    await input.fill(words);
  };
  const command = async (title: string): Promise<void> => {
    await take('F1', `>${title}`);
    await page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first().click();
  };
  /** The keys to the text, wherever they are: by the mouse, which no frame can keep. */
  const intoText = async (): Promise<void> => {
    const lines = page.locator('.editor-group-container .monaco-editor .view-lines').first();
    await lines.click({ position: { x: 60, y: 6 }, force: true });
  };
  return {
    page,
    intoText,
    open: async (name) => {
      await take('Control+P', `${name}.receiver`);
      // The one that Enter takes.
      await page.locator('.quick-input-list .focused', { hasText: `${name}.receiver` }).waitFor();
      await page.keyboard.press('Enter');
      await page
        .locator('.tab.active', { hasText: `${name}.receiver` })
        .first()
        .waitFor();
      await page
        .locator('.editor-group-container.active .monaco-editor .view-line')
        .first()
        .waitFor();
    },
    command,
    goTo: async (line, column = 1) => {
      for (let attempt = 0; ; attempt++) {
        // On a busy machine the preview may still hold the keys: then there is no line to go to.
        await intoText();
        await take('Control+G', `:${line},${column}`);
        await page.keyboard.press('Enter');
        const gone = input.waitFor({ state: 'hidden', timeout: attempt < 3 ? 4000 : 12_000 });
        if (attempt >= 3) return gone;
        if (
          await gone.then(
            () => true,
            () => false,
          )
        )
          return;
        await page.keyboard.press('Escape');
      }
    },
    cursor: async () => {
      const words = await page.locator('#status\\.editor\\.selection').textContent();
      const [line = 0, column = 0] = (words?.match(/\d+/g) ?? []).map(Number);
      return { line, column };
    },
    preview: () => page.frameLocator('iframe.webview.ready').frameLocator('#active-frame'),
    symbol: (part) =>
      page
        .frameLocator('iframe.webview.ready')
        .frameLocator('#active-frame')
        .locator(`.picture g[data-part="${part}"]`)
        .first(),
    setTheme: async (name) => {
      await command('Preferences: Color Theme');
      const chosen = page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first();
      await page
        .locator('.quick-input-list .monaco-list-row', { hasText: 'Modern' })
        .first()
        .waitFor();
      await input.fill(name);
      await chosen.waitFor();
      await page.keyboard.press('Enter');
      await input.waitFor({ state: 'hidden' });
    },
    calm: async () => {
      for (let times = 0; times < 3; times += 1) await page.keyboard.press('Escape');
    },
    picture: async (name) => {
      if (pictures === undefined) return;
      mkdirSync(pictures, { recursive: true });
      await page.screenshot({ path: join(pictures, `${name}.png`) });
    },
    close: () => context.close(),
  };
}

/** Asks again until the answer will do; what it last was is in the error. */
export async function eventually<Value>(
  ask: () => Promise<Value>,
  willDo: (value: Value) => boolean,
  patience = 15_000,
): Promise<Value> {
  const until = Date.now() + patience;
  for (;;) {
    const value = await ask();
    if (willDo(value)) return value;
    if (Date.now() > until) throw new Error(`waited in vain; last: ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** The line of some words in a text, from 1. */
export function lineOf(text: string, words: string): number {
  const at = text.split('\n').findIndex((line) => line.includes(words));
  if (at < 0) throw new Error(`no line has ${words}`);
  return at + 1;
}
