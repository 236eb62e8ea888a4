import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { connectingWords, statementWords } from '@setwright/language';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const json = (path: string) => JSON.parse(readFileSync(join(root, path), 'utf8'));

interface Rule {
  readonly name?: string;
  readonly match: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
}

const { repository } = json('syntaxes/setwright.tmLanguage.json');
const rules: readonly Rule[] = [
  ...repository.comments.patterns.filter(({ match }: Rule) => match),
  ...repository.statements.patterns,
  ...repository.details.patterns,
];

/** The rules as the editor tries them; what is written here means the same in its expressions. */
const expressions = rules.map((rule) => {
  const isAnyCase = rule.match.startsWith('(?i)');
  return {
    rule,
    expression: new RegExp(rule.match.replace('(?i)', ''), isAnyCase ? 'diy' : 'dy'),
  };
});

/** Scopes of a line by its words: at each place the first rule that matches furthest left. */
function scopesOf(line: string): readonly (readonly [string, string])[] {
  const found: [string, string][] = [];
  let at = 0;
  while (at < line.length) {
    const hit = expressions
      .map(({ rule, expression }) => {
        expression.lastIndex = at;
        return { rule, found: expression.exec(line) };
      })
      .find((each) => each.found && each.found[0].length > 0);
    if (!hit?.found) {
      at += 1;
      continue;
    }
    const { rule } = hit;
    if (rule.name) found.push([hit.found[0], rule.name]);
    for (const [group, { name }] of Object.entries(rule.captures ?? {})) {
      const words = hit.found[Number(group)];
      if (words !== undefined) found.push([words.trim(), name]);
    }
    at += hit.found[0].length;
  }
  return found;
}

const scopeIn = (line: string, word: string): string | undefined =>
  scopesOf(line).find(([words]) => words === word)?.[1];

const isKeyword = /^(keyword|storage)\./;

describe('the grammar of colors', () => {
  it('knows every word that begins a statement', () => {
    const strange = [...statementWords].filter(
      (word) => !isKeyword.test(scopeIn(`  ${word} X1`, word) ?? ''),
    );
    expect(strange).toEqual([]);
  });

  it('knows every word that leads a detail', () => {
    const strange = [...connectingWords].filter(
      (word) => !isKeyword.test(scopeIn(`  wire B- ${word} X1`, word) ?? ''),
    );
    expect(strange).toEqual([]);
  });

  it('knows every unit as it is printed on parts', () => {
    const table = readFileSync(join(root, 'packages/units/src/unit-table.ts'), 'utf8');
    const units = [...table.matchAll(/row\('([^']+)', '\w+', [^']+, '([^']+)'\)/g)].flatMap(
      ([, unit = '', spellings = '']) => [unit, ...spellings.split(' ')],
    );
    expect(units.length).toBeGreaterThan(120);
    const strange = units.filter(
      (unit) => scopeIn(`  wire A- to B- .5 ${unit} x`, unit) !== 'keyword.other.unit.setwright',
    );
    expect(strange).toEqual([]);
  });

  it('takes a word within a name for a part of the name', () => {
    expect(scopesOf('  wire to_plate to V1.grid').map(([words]) => words)).toEqual([
      'wire',
      'to_plate',
      'to',
      'V1',
      '.grid',
    ]);
    expect(scopeIn('  leak R3 2 meg from V3.grid to A+', 'A+')).toBe(
      'variable.other.part.setwright',
    );
    expect(scopeIn('  wire C-4.5 to B+67', 'C-4.5')).toBe('variable.other.part.setwright');
  });

  it('tells a tube type from a number, and a fraction from two', () => {
    expect(scopeIn('  tube V1 01-A {', '01-A')).toBe('support.type.tube.setwright');
    expect(scopeIn('  tube V1 27 {', '27')).toBe('support.type.tube.setwright');
    expect(scopeIn('  form 2 3/4 in', '2 3/4')).toBe('constant.numeric.setwright');
    expect(scopeIn('  form 2 3/4 in', 'in')).toBe('keyword.other.unit.setwright');
    expect(scopeIn('  winding grid 58 turns of 26 DCC', 'DCC')).toBe(
      'constant.language.covering.setwright',
    );
  });

  it('leaves no word of an example without a color', () => {
    const folder = join(root, 'examples');
    const bare = readdirSync(folder)
      .filter((name) => name.endsWith('.receiver'))
      .flatMap((name) => readFileSync(join(folder, name), 'utf8').split('\n'))
      .map((line) => line.replace(/"[^"]*"/g, ' ').replace(/\/\/.*/, ''))
      .flatMap((line) => {
        const left = scopesOf(line).reduce((rest, [words]) => rest.replace(words, ' '), line);
        return left.match(/[\w.+-]+/g) ?? [];
      });
    expect(bare).toEqual([]);
  });
});

describe('the language configuration', () => {
  const { wordPattern, indentationRules } = json('syntaxes/language-configuration.json');
  const words = (line: string) => line.match(new RegExp(wordPattern, 'g'));

  it('takes a name with its sign, a tube type and a number for one word each', () => {
    expect(words('wire C-4.5 to A+ and B-')).toEqual(['wire', 'C-4.5', 'to', 'A+', 'and', 'B-']);
    expect(words('tube V1 01-A at .00025 mfd')).toEqual([
      'tube',
      'V1',
      '01-A',
      'at',
      '.00025',
      'mfd',
    ]);
  });

  it('takes a part and its terminal for two words, so that each can be renamed', () => {
    expect(words('V1.grid')).toEqual(['V1', 'grid']);
  });

  it('indents after a brace that stays open', () => {
    const opens = new RegExp(indentationRules.increaseIndentPattern);
    expect(opens.test('  coil L1 "a {" {')).toBe(true);
    expect(opens.test('  battery A dry { tap A- }')).toBe(false);
    expect(opens.test('  note "an { open brace"')).toBe(false);
  });
});
