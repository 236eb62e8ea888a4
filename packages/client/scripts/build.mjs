// Bundles the editor's side: dist/setwright-client.cjs where Node runs, dist/setwright-client-web.js
// where a browser runs it, and the preview's page dist/webview.js and dist/webview.css.
// Usage: node packages/client/scripts/build.mjs [--quiet]
import { rmSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const source = (path) => join(root, 'packages', path);
const dist = (name) => join(root, 'dist', name);
const quiet = process.argv.includes('--quiet');

const shared = {
  absWorkingDir: root,
  bundle: true,
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
};

const bundles = [
  {
    outfile: dist('setwright-client.cjs'),
    entryPoints: [source('client/src/extension.ts')],
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    external: ['vscode'],
  },
  {
    outfile: dist('setwright-client-web.js'),
    entryPoints: [source('client/src/extension-web.ts')],
    platform: 'browser',
    target: 'es2022',
    format: 'cjs',
    external: ['vscode'],
  },
  {
    outfile: dist('webview.js'),
    entryPoints: [source('webview/src/page/main.ts')],
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
  },
  {
    outfile: dist('webview.css'),
    entryPoints: [source('webview/src/page/style.css')],
    target: 'es2022',
  },
];

// What is left over from an earlier build must not be taken for this one when this one fails.
for (const { outfile } of bundles) rmSync(outfile, { force: true });
try {
  await Promise.all(bundles.map((bundle) => build({ ...shared, ...bundle })));
} catch (error) {
  // esbuild has already printed its own errors; anything else still has to be said.
  if (!error.errors) console.error(error);
  process.exit(1);
}
if (!quiet) {
  for (const { outfile } of bundles)
    console.log(`${relative(root, outfile)} ${Math.round(statSync(outfile).size / 1000)} kB`);
}
