// Where things lie that the tests in the editor need.
import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Outside the clone, so that a fresh clone finds it again. */
export const editorHome =
  process.env.SETWRIGHT_EDITOR ?? join(homedir(), '.cache', 'setwright-editor');
export const vscodeFolder = join(editorHome, 'node_modules/code-server/lib/vscode');
export const serverMain = join(vscodeFolder, 'out/server-main.js');

/** The browser of the distribution, or the one that SETWRIGHT_CHROMIUM names. */
export const chromium =
  process.env.SETWRIGHT_CHROMIUM ??
  ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) =>
    existsSync(path),
  ) ??
  '/usr/bin/chromium';
