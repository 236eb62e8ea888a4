// Writes examples/faulty/<id>.receiver from the failing set of every check. Usage: npm run faulty
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { withBundled } from '../support/bundled.mjs';

const folder = join(import.meta.dirname, '../../examples/faulty');

await withBundled(join(import.meta.dirname, 'faulty-sets.ts'), async (bundle) => {
  const { faultySets } = await import(pathToFileURL(bundle).href);
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder))
    if (name.endsWith('.receiver')) rmSync(join(folder, name));
  for (const { id, text } of faultySets) writeFileSync(join(folder, `${id}.receiver`), text);
  console.log(`wrote ${faultySets.length} faulty sets`);
});
