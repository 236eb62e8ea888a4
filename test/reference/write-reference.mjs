// Writes examples/language-reference.md from the tables of the language. Usage: npm run reference
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { withBundled } from '../support/bundled.mjs';

await withBundled(join(import.meta.dirname, 'reference.ts'), async (bundle) => {
  const { languageReference } = await import(pathToFileURL(bundle).href);
  const file = join(import.meta.dirname, '../../examples/language-reference.md');
  writeFileSync(file, languageReference());
  console.log(`wrote ${file}`);
});
