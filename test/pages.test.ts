import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { asShown, printed, shownIn } from './support/shown.ts';

const folder = join(import.meta.dirname, '../examples/at-work');
const pages = readdirSync(folder).filter((name) => name.endsWith('.md'));

describe.each(pages)('the page %s', (name) => {
  const shown = shownIn(readFileSync(join(folder, name), 'utf8'));

  it('shows what the tool prints', () => expect(shown.length).toBeGreaterThan(0));

  it.each(shown.map(({ args, output }) => [args.join(' '), args, output] as const))(
    'setwright %s prints what is shown',
    (_, args, output) => expect(asShown(printed(args, folder), output)).toBe(output),
  );
});
