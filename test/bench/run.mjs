// Bundles bench.ts and runs it. Usage: npm run bench
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';

const folder = mkdtempSync(join(tmpdir(), 'setwright-bench-'));
const outfile = join(folder, 'bench.mjs');
try {
  await build({
    entryPoints: [join(import.meta.dirname, 'bench.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    loader: { '.receiver': 'text' },
    logLevel: 'warning',
  });
  process.exitCode = spawnSync(process.execPath, [outfile], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true });
}
