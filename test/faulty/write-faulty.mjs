// Writes examples/faulty/<id>.receiver from the failing set of every check. Usage: npm run faulty
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const folder = join(import.meta.dirname, '../../examples/faulty');
const work = mkdtempSync(join(tmpdir(), 'setwright-faulty-'));
const outfile = join(work, 'faulty-sets.mjs');
try {
  await build({
    entryPoints: [join(import.meta.dirname, 'faulty-sets.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    loader: { '.receiver': 'text' },
    logLevel: 'warning',
  });
  const { faultySets } = await import(pathToFileURL(outfile).href);
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder))
    if (name.endsWith('.receiver')) rmSync(join(folder, name));
  for (const { id, text } of faultySets) writeFileSync(join(folder, `${id}.receiver`), text);
  console.log(`wrote ${faultySets.length} faulty sets`);
} finally {
  rmSync(work, { recursive: true });
}
