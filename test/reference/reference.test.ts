import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { allChecks, checkCircuit } from '@setwright/checks';
import { partKinds } from '@setwright/circuit';
import { connectingWords, readReceivers, statementWords } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { languageReference } from './reference.ts';

const written = readFileSync(
  join(import.meta.dirname, '../../examples/language-reference.md'),
  'utf8',
);

/** Words that stand between back quotes or in an example. */
const said = new Set(
  [...written.matchAll(/`([^`\n]+)`/g), ...written.matchAll(/^```\w+\n([\s\S]*?)^```$/gm)].flatMap(
    ([, words = '']) => words.split(/[^\w+%-]+/),
  ),
);

describe('the reference of the language', () => {
  it('is up to date (npm run reference writes it)', () => {
    expect(written).toBe(languageReference());
  });

  it.each([
    ['word that begins a line', [...statementWords]],
    ['word that leads a detail', [...connectingWords]],
    ['end of a part', Object.values(partKinds).flatMap(({ ends }) => ends)],
    ['check', allChecks.map(({ id }) => id)],
  ])('speaks of every %s', (_, words) => {
    expect(words.filter((word) => !said.has(word))).toEqual([]);
  });

  it('has no example that cannot be read', () => {
    const examples = [...written.matchAll(/^```setwright\n([\s\S]*?)^```$/gm)].map(
      ([, example = '']) => example,
    );
    expect(examples.length).toBeGreaterThan(30);
    const unread = examples.filter((example) => {
      const isWhole = /^(receiver|use|tube type) /.test(example);
      const text = isWhole ? `${example}\nreceiver "Other" { }` : `receiver "Set" {\n${example}}`;
      return readReceivers(text, 'example').circuits.some((circuit) =>
        checkCircuit(circuit).findings.some(({ check }) => check === 'unreadable-line'),
      );
    });
    expect(unread).toEqual([]);
  });

  it('has tables of which every row is whole', () => {
    const widths = (block: string): readonly number[] =>
      block
        .trim()
        .split('\n')
        .map((line) => line.replaceAll('\\|', '').split('|').length);
    for (const [block] of written.matchAll(/(?:^\|.*\|\n)+/gm))
      expect(new Set(widths(block)).size, block.slice(0, 200)).toBe(1);
  });
});
