// Bundles repair.ts and runs it. Usage: npm run repair [NAME OF AN EXAMPLE]
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'repair.ts'), (repair) => {
  const run = spawnSync(process.execPath, [repair, ...process.argv.slice(2)], { stdio: 'inherit' });
  process.exitCode = run.status ?? 1;
});
