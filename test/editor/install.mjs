// Puts a whole editor into a cache folder outside the clone, once: the server of VS Code 1.100.3 as
// it lies in the npm package of code-server 4.100.3. It runs on Node 20 and shows its workbench in
// any browser, so that the extension can be tried in the real thing, headless and offline.
//
//   node test/editor/install.mjs            installs where it is missing, and prints the folder
//
// SETWRIGHT_EDITOR names another folder. A stamp tells a finished installation from a broken one.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { editorHome, serverMain, vscodeFolder } from './places.mjs';

const packages = { editor: 'code-server@4.100.3', ripgrep: '@vscode/ripgrep-linux-x64@1.18.0' };
const stamp = join(editorHome, 'installed.txt');
const recipe = `${packages.editor}\n${packages.ripgrep}\nrecipe 1\n`;

function run(command, folder, environment = {}) {
  console.error(`  ${command}`);
  const done = spawnSync(command, {
    cwd: folder,
    shell: true,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
    env: { ...process.env, npm_config_fund: 'false', npm_config_audit: 'false', ...environment },
  });
  if (done.status !== 0) {
    throw new Error(`${command}\n${done.stdout ?? ''}${done.stderr ?? ''}${done.error ?? ''}`);
  }
}

function isInstalled() {
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === recipe && existsSync(serverMain);
}

/** Installs the editor where it is missing. Throws with what the failing command said. */
export function installEditor() {
  if (isInstalled()) return;
  console.error(`installing the editor into ${editorHome}, which takes a minute or two`);
  rmSync(editorHome, { recursive: true, force: true });
  const searcher = join(editorHome, 'rg');
  mkdirSync(searcher, { recursive: true });
  const quiet = '--loglevel=error';
  writeFileSync(join(editorHome, 'package.json'), '{ "private": true }\n');
  run(`npm install --ignore-scripts --engine-strict ${quiet} ${packages.editor}`, editorHome);
  run(`npm install --ignore-scripts --omit=dev ${quiet}`, vscodeFolder);
  // These have no prebuilt file for this Node; everything else runs without its scripts.
  run(`npm rebuild ${quiet} @vscode/spdlog native-watchdog node-pty`, vscodeFolder, {
    npm_config_yes: 'true',
  });
  run(`npm install --no-save ${quiet} --prefix "${searcher}" ${packages.ripgrep}`, editorHome);
  const bin = join(vscodeFolder, 'node_modules/@vscode/ripgrep/bin');
  mkdirSync(bin, { recursive: true });
  const found = join(searcher, 'node_modules/@vscode/ripgrep-linux-x64/bin/rg');
  rmSync(join(bin, 'rg'), { force: true });
  symlinkSync(found, join(bin, 'rg'));
  run(`npm install --ignore-scripts --omit=dev ${quiet}`, join(vscodeFolder, 'extensions'));
  if (!existsSync(join(vscodeFolder, 'node_modules.asar'))) {
    symlinkSync('node_modules', join(vscodeFolder, 'node_modules.asar'));
  }
  writeFileSync(stamp, recipe);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    installEditor();
    console.log(editorHome);
  } catch (error) {
    console.error(`The editor could not be installed.\n${error.message}`);
    process.exitCode = 1;
  }
}
