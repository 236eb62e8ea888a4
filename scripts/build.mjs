// Bundles the command line tool into one file: dist/setwright.cjs.
// Usage: node scripts/build.mjs [--quiet]
import { chmodSync, existsSync, mkdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const entry = join(root, 'packages/cli/src/main.ts');
const bundle = join(root, 'dist/setwright.cjs');
const metafile = join(root, 'dist/meta.json');
const quiet = process.argv.includes('--quiet');

// A bundle left over from an earlier build must not be taken for this one when this one fails.
rmSync(bundle, { force: true });
rmSync(metafile, { force: true });

if (!existsSync(entry)) {
  console.error(
    `build: the entry ${relative(root, entry)} is missing, so there is nothing to bundle`,
  );
  process.exit(1);
}

try {
  const result = await build({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile: bundle,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    minify: true,
    legalComments: 'none',
    banner: { js: '#!/usr/bin/env node' },
    loader: { '.receiver': 'text' },
    metafile: true,
    logLevel: 'warning',
  });
  mkdirSync(dirname(metafile), { recursive: true });
  writeFileSync(metafile, `${JSON.stringify(result.metafile)}\n`);
  chmodSync(bundle, 0o755);
} catch (error) {
  // esbuild has already printed its own errors; anything else still has to be said.
  if (!error.errors) console.error(error);
  process.exit(1);
}

if (!quiet) {
  const kilobytes = Math.round(statSync(bundle).size / 1000);
  console.log(`${relative(root, bundle)} ${kilobytes} kB`);
}
