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

/** A file of the folder that is open. */
export const pathOf = (file: string): string => join(sets, file);

export const textOf = (name: string): string => readFileSync(pathOf(`${name}.receiver`), 'utf8');

/** A workbench in a browser, as a person sees it. */
export interface Desk {
  readonly page: Page;
  /** Opens a set by its name. */
  open(name: string): Promise<void>;
  /** Runs a command by its title, as from the palette. */
  command(title: string): Promise<void>;
  /** Takes one of those that are offered above the workbench. */
  choose(words: string): Promise<void>;
  /** Puts the keys into the text. */
  intoText(): Promise<void>;
  /** Puts the cursor on a line and column, from 1. */
  goTo(line: number, column?: number): Promise<void>;
  /** Line and column of the cursor, from 1. */
  cursor(): Promise<{ readonly line: number; readonly column: number }>;
  /** The page of the preview. */
  preview(): FrameLocator;
  symbol(part: string): Locator;
  /** Waits until the preview shows what was last chosen in it. */
  painted(): Promise<void>;
  /** Closes the editor before the person, and waits until its page is gone. */
  closeEditor(): Promise<void>;
  /** Shows the hover at the cursor once it says this. */
  hoverSaying(words: RegExp): Promise<void>;
  /** Writes a line below that of the cursor. */
  typeLine(words: string): Promise<void>;
  /** Takes back every change since the file was saved. */
  revert(): Promise<void>;
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
    // By Enter and the row that it takes: a click may meet a tooltip that the mouse called up.
    const rows = page.locator('.quick-input-list .monaco-list-row');
    await rows.filter({ hasText: title }).first().waitFor();
    const focused = page.locator('.quick-input-list .monaco-list-row.focused');
    const named = async (): Promise<string> => {
      const name = await focused.locator('.monaco-highlighted-label').first().textContent();
      // Those that go on to ask for something say so.
      return (name ?? '').replaceAll('\u00a0', ' ').replace(/…$/, '');
    };
    for (let name = await named(); name !== title; ) {
      await page.keyboard.press('ArrowDown');
      const before = name;
      name = await eventually(named, (now) => now !== before);
    }
    await page.keyboard.press('Enter');
  };
  /** The keys to the text, wherever they are: by the mouse, which no frame can keep. */
  const intoText = async (): Promise<void> => {
    await page.locator('.editor-group-container').first().locator('.tab.active').click();
    await page.locator('.editor-group-container .monaco-editor.focused').first().waitFor();
  };
  const cursor = async (): Promise<{ readonly line: number; readonly column: number }> => {
    const words = await page.locator('#status\\.editor\\.selection').textContent();
    const [line = 0, column = 0] = (words?.match(/\d+/g) ?? []).map(Number);
    return { line, column };
  };
  const preview = (): FrameLocator =>
    page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  return {
    page,
    intoText,
    open: async (name) => {
      await take('Control+P', `${name}.receiver`);
      // The one that Enter takes.
      await page.locator('.quick-input-list .focused', { hasText: `${name}.receiver` }).waitFor();
      await page.keyboard.press('Enter');
      // Painted, and with the keys in it.
      await page
        .locator(`.monaco-editor.focused[data-uri$="/${name}.receiver"] .view-line`)
        .first()
        .waitFor();
    },
    command,
    choose: async (words) => {
      const row = page.locator('.quick-input-list .monaco-list-row', { hasText: words });
      await row.first().waitFor();
      await input.fill(words);
      await page
        .locator('.quick-input-list .monaco-list-row.focused', { hasText: words })
        .waitFor();
      await page.keyboard.press('Enter');
    },
    goTo: async (line, column = 1) => {
      await intoText();
      await take('Control+G', `:${line},${column}`);
      await page
        .locator('.quick-input-list .monaco-list-row.focused', { hasText: `Go to line ${line}` })
        .waitFor();
      await page.keyboard.press('Enter');
      await eventually(cursor, (now) => now.line === line && now.column === column);
      await page.locator('.monaco-editor.focused').first().waitFor();
    },
    cursor,
    preview,
    symbol: (part) => preview().locator(`.picture g[data-part="${part}"]`).first(),
    painted: () => preview().locator('#page[aria-busy="false"]').waitFor(),
    closeEditor: async () => {
      const tab = page.locator('.editor-group-container.active .tab.active');
      const name = await tab.getAttribute('data-resource-name');
      // By the mouse: the palette has several commands of that name.
      await tab.locator('.tab-actions .codicon-close').click();
      const same = page.locator(`.tab.active[data-resource-name="${name}"]`);
      await same.waitFor({ state: 'detached' });
    },
    hoverSaying: async (words) => {
      await command('Show or Focus Hover');
      await page.locator('.monaco-hover:not(.hidden)', { hasText: words }).first().waitFor();
    },
    typeLine: async (words) => {
      // Not by Enter, which a list of suggestions may keep for itself.
      await page.keyboard.press('Control+Enter');
      await page.keyboard.type(words, { delay: 5 });
    },
    revert: async () => {
      await command('File: Revert File');
      await page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
    },
    setTheme: async (name) => {
      await command('Preferences: Color Theme');
      const chosen = page.locator('.quick-input-list .monaco-list-row.focused', { hasText: name });
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
  patience = 25_000,
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
