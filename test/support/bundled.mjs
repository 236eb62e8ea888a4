import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';

/** Bundles a script of ours to one file, hands its path on, and clears up after. */
export async function withBundled(entry, use) {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
  const outfile = join(folder, 'bundle.mjs');
  try {
    await build({
      entryPoints: [entry],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      loader: { '.receiver': 'text' },
      // Paints pictures of dots, which no script here wants; it is no text that could be bundled.
      external: ['@resvg/resvg-js'],
      // Packages of the older kind load parts of Node by a function that such a bundle has not.
      banner: {
        js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
      },
      logLevel: 'warning',
    });
    await use(outfile);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
