import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page as BrowserPage } from 'playwright-core';
import { previewHtml } from '../../src/html.ts';
import type { FromPreview, Kept, ToPreview } from '../../src/messages.ts';
import { type Theme, themes } from './themes.ts';

const entry = fileURLToPath(new URL('../../src/page/main.ts', import.meta.url));
const style = fileURLToPath(new URL('../../src/page/style.css', import.meta.url));
const address = 'https://preview.test';

let files: Promise<ReadonlyMap<string, string>> | undefined;

/** The preview's script and style, bundled once. */
async function bundled(): Promise<ReadonlyMap<string, string>> {
  const { outputFiles } = await build({
    entryPoints: { webview: entry, style },
    bundle: true,
    write: false,
    outdir: '/',
    format: 'iife',
    target: 'es2022',
    logLevel: 'error',
  });
  return new Map(outputFiles.map(({ path, text }) => [path.replace(/^.*[\\/]/, ''), text]));
}

/** The preview alone in a browser, with a stand-in for the editor around it. */
export interface Preview {
  readonly page: BrowserPage;
  /** What the preview has said to the client so far. */
  said(): Promise<readonly FromPreview[]>;
  tell(...messages: readonly ToPreview[]): Promise<void>;
  /** What it would find again after a reload. */
  kept(): Promise<Kept | undefined>;
  /** Errors of the page, refused by its content policy and others. */
  readonly troubles: readonly string[];
  close(): Promise<void>;
}

export async function openPreview(
  browser: Browser,
  { theme = themes[0]!, kept, width = 900, height = 800, motion = false }: PreviewOptions = {},
): Promise<Preview> {
  files ??= bundled();
  const texts = await files;
  const context = await browser.newContext({
    viewport: { width, height },
    reducedMotion: motion ? 'no-preference' : 'reduce',
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('pageerror', (error) => troubles.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') troubles.push(message.text());
  });
  const html = previewHtml({
    cspSource: address,
    nonce: 'abc123',
    script: `${address}/webview.js`,
    style: `${address}/style.css`,
  });
  await page.route('**/*', (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    const found = name === '' ? html : texts.get(name);
    if (found === undefined) return route.abort();
    const kind = name.endsWith('.js') ? 'text/javascript' : name ? 'text/css' : 'text/html';
    return route.fulfill({ body: found, contentType: `${kind}; charset=utf-8` });
  });
  await page.addInitScript(
    ({ state, classes, variables }) => {
      const editor = { said: [] as unknown[], state };
      Object.assign(window, {
        editor,
        acquireVsCodeApi: () => ({
          postMessage: (message: unknown) => editor.said.push(structuredClone(message)),
          getState: () => editor.state,
          setState: (next: unknown) => {
            editor.state = structuredClone(next);
          },
        }),
      });
      addEventListener('DOMContentLoaded', () => {
        document.body.className = classes;
        for (const [name, value] of Object.entries(variables)) {
          document.documentElement.style.setProperty(name, value);
        }
      });
    },
    { state: kept, classes: theme.classes, variables: theme.variables },
  );
  await page.goto(`${address}/`);
  await page.locator('[role=tablist]').waitFor();
  /** Whatever was done to the page is painted, and told, after a few frames. */
  const settled = (): Promise<void> =>
    page.evaluate(async () => {
      for (let frame = 0; frame < 4; frame += 1) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
      }
    });
  const editor = async <Value>(name: 'said' | 'state'): Promise<Value> => {
    await settled();
    return (await page.evaluate((key) => (window as unknown as Editor).editor[key], name)) as Value;
  };
  return {
    page,
    troubles,
    said: () => editor('said'),
    kept: () => editor('state'),
    tell: async (...messages) => {
      await page.evaluate((all) => {
        for (const message of all) window.postMessage(message, '*');
      }, messages as unknown[]);
      await settled();
    },
    close: () => context.close(),
  };
}

interface PreviewOptions {
  readonly theme?: Theme;
  readonly kept?: unknown;
  readonly width?: number;
  readonly height?: number;
  /** Whether the reader lets things move. */
  readonly motion?: boolean;
}

interface Editor {
  readonly editor: Readonly<Record<'said' | 'state', unknown>>;
}
