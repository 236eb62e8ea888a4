// Bundles soak.ts and runs it with the garbage collector at hand.
// Usage: npm run soak [-- --edits 2000]
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'soak.ts'), (soak) => {
  const args = ['--expose-gc', soak, ...process.argv.slice(2)];
  process.exitCode = spawnSync(process.execPath, args, { stdio: 'inherit' }).status ?? 1;
});
