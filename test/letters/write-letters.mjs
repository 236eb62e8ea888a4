// Writes packages/diagram/src/lettering/letters.ts from the typeface. Usage: npm run letters
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { withBundled } from '../support/bundled.mjs';

const require = createRequire(import.meta.url);
const typeface = require.resolve('@fontsource/arimo/package.json');

await withBundled(join(import.meta.dirname, 'letter-module.ts'), async (bundle) => {
  const { letterModule } = await import(pathToFileURL(bundle).href);
  const file = join(import.meta.dirname, '../../packages/diagram/src/lettering/letters.ts');
  writeFileSync(file, letterModule(dirname(typeface)));
  console.log(`wrote ${file}`);
});
