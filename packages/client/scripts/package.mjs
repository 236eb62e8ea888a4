// Packs the editor extension: dist/setwright.vsix, from bundles that are already built.
// What is packed is laid out in a folder of its own first, with a manifest that leaves out what only
// the workspace needs; so the command line tool's bundles are not in it.
// Usage: node packages/client/scripts/package.mjs
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { thirdPartyNotices } from './notices.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const vsix = join(root, 'dist/setwright.vsix');
const mostBytes = 2_000_000;

const packed = [
  'CHANGELOG.md',
  'LICENSE',
  'dist/setwright-client.cjs',
  'dist/setwright-client-web.js',
  'dist/setwright-server-process.cjs',
  'dist/setwright-server-worker.js',
  'dist/webview.js',
  'dist/webview.css',
  'dist/third-party-notices.txt',
  'packages/client/media',
  'packages/client/snippets',
  'syntaxes',
  'examples',
];
/** Only for people who read the repository. */
const left = /examples[\\/](at-work|collection|faulty|pictures|README\.md)|icon-256\.png/;

const ofTheWorkspace = [
  'private',
  'type',
  'workspaces',
  'bin',
  'files',
  'scripts',
  'devDependencies',
  'overrides',
];

writeFileSync(join(root, 'dist/third-party-notices.txt'), thirdPartyNotices(root));
const missing = packed.filter((path) => !existsSync(join(root, path)));
if (missing.length > 0) {
  console.error(`package: build first; missing: ${missing.join(', ')}`);
  process.exit(1);
}

const folder = mkdtempSync(join(tmpdir(), 'setwright-package-'));
try {
  for (const path of packed) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    cpSync(join(root, path), join(folder, path), {
      recursive: true,
      filter: (from) => !left.test(from),
    });
  }
  // What the extension's own page shows is about the editor.
  cpSync(join(root, 'packages/client/README.md'), join(folder, 'README.md'));
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  for (const key of ofTheWorkspace) delete manifest[key];
  writeFileSync(join(folder, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
  rmSync(vsix, { force: true });
  const done = spawnSync(
    process.execPath,
    [
      join(root, 'node_modules/@vscode/vsce/vsce'),
      'package',
      '--no-dependencies',
      // Pictures of the page lie in the package itself.
      '--no-rewrite-relative-links',
      '--allow-missing-repository',
      '--out',
      vsix,
    ],
    { cwd: folder, encoding: 'utf8' },
  );
  if (done.status !== 0) {
    console.error(`${done.stdout}${done.stderr}`);
    process.exit(1);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

const { size } = statSync(vsix);
console.log(`dist/setwright.vsix ${Math.round(size / 1000)} kB`);
if (size > mostBytes) {
  console.error(`package: more than ${mostBytes / 1_000_000} MB`);
  process.exit(1);
}
