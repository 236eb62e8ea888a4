// Bundles the tests that run in the editor, since neither it nor Node reads TypeScript.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from './places.mjs';

/** The test files of a folder as one module, in the order of their names. */
export async function bundleTests(folder, outfile, { format, external }) {
  const from = join(root, 'test/editor', folder);
  const files = readdirSync(from)
    .filter((name) => name.endsWith('.test.ts'))
    .sort();
  await build({
    stdin: {
      contents: files.map((name) => `import './${name}';`).join('\n'),
      resolveDir: from,
      loader: 'ts',
    },
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format,
    external,
    sourcemap: 'inline',
    logLevel: 'error',
  });
}
