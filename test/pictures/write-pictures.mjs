// Takes the pictures of the documents anew, with the tool as built. Usage: npm run pictures
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'make-picture.ts'), async (bundle) => {
  const root = join(import.meta.dirname, '../..');
  const { picturesMade } = await import(pathToFileURL(bundle).href);
  for (const { file, make } of picturesMade(root)) {
    writeFileSync(join(root, file), make());
    console.log(`wrote ${file}`);
  }
});
