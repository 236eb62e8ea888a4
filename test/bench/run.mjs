// Bundles bench.ts and runs it. Usage: npm run bench
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'bench.ts'), (bench) => {
  process.exitCode = spawnSync(process.execPath, [bench], { stdio: 'inherit' }).status ?? 1;
});
