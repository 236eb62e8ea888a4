// Bundles bench.ts and runs it. Usage: npm run bench, or npm run bench -- TOPIC for one topic alone
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'bench.ts'), (bench) => {
  process.exitCode =
    spawnSync(process.execPath, [bench, ...process.argv.slice(2)], {
      stdio: 'inherit',
    }).status ?? 1;
});
