import { readFile } from 'node:fs/promises';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** Loads an imported receiver file as its text, as the bundle does. */
const receiverText: Plugin = {
  name: 'receiver-text',
  enforce: 'pre',
  async load(id) {
    if (!id.endsWith('.receiver')) return null;
    return `export default ${JSON.stringify(await readFile(id, 'utf8'))};`;
  },
};

export default defineConfig({
  plugins: [receiverText],
  test: {
    include: ['packages/*/test/**/*.test.ts', 'test/**/*.test.ts'],
    // Those run inside the editor: test/editor/run.mjs.
    exclude: ['**/node_modules/**', 'test/editor/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Whatever is asked again and again may take its time on a busy machine; it is one second else.
    expect: { poll: { timeout: 20_000 } },
    // The packages keep no state, so test files can share a worker and load each module once.
    pool: 'threads',
    isolate: false,
    maxWorkers: 2,
  },
});
