import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { letterModule } from './letter-module.ts';

const require = createRequire(import.meta.url);
const typeface = dirname(require.resolve('@fontsource/arimo/package.json'));
const lettering = join(import.meta.dirname, '../../packages/diagram/src/lettering');

it('the outlines of letters are those of the typeface: else run `npm run letters`', () => {
  expect(readFileSync(join(lettering, 'letters.ts'), 'utf8')).toBe(letterModule(typeface));
});

it('the licence of the typeface is beside its outlines', () => {
  const licence = readFileSync(join(lettering, 'OFL.txt'), 'utf8');
  expect(licence).toBe(readFileSync(join(typeface, 'LICENSE'), 'utf8'));
  expect(licence).toContain('SIL OPEN FONT LICENSE Version 1.1');
});
