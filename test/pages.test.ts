import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { asShown, printed, shownIn } from './support/shown.ts';

const folder = join(import.meta.dirname, '../examples/at-work');
const pages = readdirSync(folder).filter((name) => name.endsWith('.md'));

/** Every line of the sets beside the pages. */
const written = new Set(
  readdirSync(folder)
    .filter((name) => name.endsWith('.receiver'))
    .flatMap((name) => readFileSync(join(folder, name), 'utf8').split('\n'))
    .map((line) => line.trim()),
);

describe.each(pages)('the page %s', (name) => {
  const page = readFileSync(join(folder, name), 'utf8');
  const shown = shownIn(page);

  it('shows what the tool prints', () => expect(shown.length).toBeGreaterThan(0));

  it('quotes its sets as they are written', () => {
    const blocks = [...page.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)];
    const quoted = blocks.flatMap(([, language, block = '']) =>
      language === '' ? block.split('\n').map((line) => line.trim()) : [],
    );
    const isQuoted = (line: string) =>
      line !== '' && line !== '…' && !line.startsWith('setwright ');
    expect(quoted.filter((line) => isQuoted(line) && !written.has(line))).toEqual([]);
  });

  it.each(shown.map(({ args, output }) => [args.join(' '), args, output] as const))(
    'setwright %s prints what is shown',
    (_, args, output) => expect(asShown(printed(args, folder), output)).toBe(output),
  );
});
