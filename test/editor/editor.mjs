// A running editor: its server on a port of this machine, and a browser that shows it.
import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium as browserKind } from 'playwright-core';
import { chromium, serverMain } from './places.mjs';

/** Settings that keep the window still: nothing pops up, nothing moves by itself. */
const settings = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.reduceMotion': 'on',
  // The list of commands does not depend on what was done before.
  'workbench.commandPalette.history': 0,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.layoutControl.enabled': false,
  'window.commandCenter': false,
  'editor.minimap.enabled': false,
  'editor.accessibilitySupport': 'off',
  'editor.lightbulb.enabled': 'on',
  'editor.hover.delay': 100,
  'editor.codeLens': true,
  'editor.inlayHints.enabled': 'on',
  'editor.fontFamily': 'DejaVu Sans Mono',
  'editor.fontSize': 13,
  'files.simpleDialog.enable': true,
  'files.autoSave': 'off',
  'extensions.ignoreRecommendations': true,
  'extensions.autoCheckUpdates': false,
  'telemetry.telemetryLevel': 'off',
  'git.openRepositoryInParentFolders': 'never',
  'security.workspace.trust.enabled': false,
};

/** A port of this machine that nobody uses. */
const freePort = () =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });

async function answers(address, patience) {
  const until = Date.now() + patience;
  while (Date.now() < until) {
    try {
      const response = await fetch(`${address}/version`);
      if (response.ok) return;
    } catch {
      // Not yet.
    }
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  throw new Error(`the editor's server does not answer at ${address}`);
}

/**
 * Starts the editor's server with a fresh place for its data, and with the extension packed in
 * `vsix`, if any, and with more settings. `close` ends it and removes what it wrote.
 */
export async function startEditor({ vsix, settings: more = {} } = {}) {
  const home = mkdtempSync(join(tmpdir(), 'setwright-editor-'));
  const [data, user, extensions] = ['data', 'user', 'extensions'].map((name) => join(home, name));
  mkdirSync(join(user, 'User'), { recursive: true });
  writeFileSync(
    join(user, 'User/settings.json'),
    JSON.stringify({ ...settings, ...more }, null, 2),
  );
  const places = [
    '--accept-server-license-terms',
    ...['--server-data-dir', data],
    ...['--user-data-dir', user],
    ...['--extensions-dir', extensions],
  ];
  if (vsix !== undefined) {
    const done = spawnSync(
      process.execPath,
      [serverMain, '--install-extension', vsix, '--force', ...places],
      { encoding: 'utf8', env: quietEnvironment() },
    );
    if (done.status !== 0 || !/successfully installed/.test(done.stdout)) {
      throw new Error(`the extension could not be installed\n${done.stdout}${done.stderr}`);
    }
  }
  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  const log = join(home, 'server.log');
  const output = openSync(log, 'a');
  const child = spawn(
    process.execPath,
    [
      serverMain,
      ...['--host', '127.0.0.1', '--port', `${port}`],
      '--without-connection-token',
      ...places,
      '--disable-telemetry',
      '--disable-workspace-trust',
      '--enable-smoke-test-driver',
    ],
    { detached: true, stdio: ['ignore', output, output], env: quietEnvironment() },
  );
  const close = () => {
    try {
      process.kill(-child.pid, 'SIGKILL');
    } catch {
      // It has already ended.
    }
    rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  try {
    await answers(address, 60_000);
  } catch (error) {
    close();
    throw error;
  }
  return { address, authority: `127.0.0.1:${port}`, home, log, close };
}

/** Without what this process was started with, and without a shop for extensions. */
function quietEnvironment() {
  const { PATH, HOME, LANG } = process.env;
  return { PATH, HOME, LANG, EXTENSIONS_GALLERY: '{"serviceUrl":""}' };
}

/** The browser of this machine; nothing leaves the machine. */
export function openBrowser() {
  return browserKind.launch({
    executablePath: chromium,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1',
    ],
  });
}

/** The address of the workbench with a folder open; `payload` is a list of pairs for it. */
export function workbench({ address, authority }, folder, payload = []) {
  const place = (path) => `vscode-remote://${authority}${path}`;
  const pairs = payload.map(([key, value]) => [key, value.startsWith('/') ? place(value) : value]);
  const words = new URLSearchParams({ folder });
  if (pairs.length > 0) words.set('payload', JSON.stringify(pairs));
  return `${address}/?${words}`;
}
