import { describe, expect, it } from 'vitest';
import { semanticTokens, tokenLegend } from '../../src/features/semantic-tokens.ts';
import { exampleNames, exampleText, rangeOf, read, setWith } from '../support.ts';

interface Token {
  readonly words: string;
  readonly type: string;
  readonly line: number;
}

const tokens = (text: string, words?: string): Token[] => {
  const snapshot = read(text);
  const { data } = semanticTokens(
    snapshot,
    words === undefined ? undefined : rangeOf(snapshot, words),
  );
  const found: Token[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, right = 0, length = 0, type = 0, bits = 0] = data.slice(at, at + 5);
    line += down;
    character = down === 0 ? character + right : right;
    const start = snapshot.offset({ line, character });
    const modifiers = tokenLegend.tokenModifiers.filter((_, bit) => bits & (1 << bit));
    found.push({
      words: text.slice(start, start + length),
      type: [tokenLegend.tokenTypes[type], ...modifiers].join(' '),
      line,
    });
  }
  return found;
};

const typeOf = (words: string, text = setWith()): string | undefined =>
  tokens(text).find((token) => token.words === words)?.type;

describe('what a word is coloured as', () => {
  it.each([
    ['receiver', 'keyword'],
    ['"Lantern Cove Punt"', 'namespace declaration'],
    ['DET', 'namespace declaration'],
    ['RH1', 'variable declaration'],
    ['B+45', 'variable declaration readonly'],
    ['01-A', 'class defaultLibrary'],
    ['storage', 'modifier'],
    ['550', 'number'],
    ['kc', 'enumMember'],
    ['2 3/4', 'number'],
    ['"grid condenser"', 'string'],
    ['// told', 'comment'],
    ['finish', 'property'],
    ['from', 'keyword'],
  ])('%s is %s', (words, type) => {
    expect(typeOf(words, setWith({ set: 'coil L9 {\n form 2 3/4 in\n }\n  // told' }))).toBe(type);
  });

  it('a check that is meant stands out', () => {
    expect(typeOf('grid-biased-positive', setWith({ set: 'meant grid-biased-positive "x"' }))).toBe(
      'decorator',
    );
  });

  it('a type of one’s own is no library', () => {
    expect(typeOf('09', 'tube type 09 {\n}\n')).toBe('class declaration');
  });

  it('a comment over several lines is cut where they end', () => {
    expect(tokens('/* a\n b */\n').map(({ words, line }) => [words, line])).toEqual([
      ['/* a', 0],
      [' b */', 1],
    ]);
  });
});

describe('the tokens of a text', () => {
  it('of a range are those of its lines', () => {
    const all = tokens(setWith());
    const some = tokens(setWith(), 'rheostat RH1');
    const { line } = all.find(({ words }) => words === 'RH1')!;
    expect(some).toEqual(all.filter((token) => token.line === line));
  });

  it.each([...exampleNames('sound'), 'faulty/unreadable-line'])(
    '%s: come in order and do not overlap',
    (name) => {
      const { data } = semanticTokens(read(exampleText(name)));
      let length = 0;
      for (let at = 0; at < data.length; at += 5) {
        const [down = 0, right = 0] = data.slice(at, at + 2);
        expect(down).toBeGreaterThanOrEqual(0);
        if (down === 0) expect(right).toBeGreaterThanOrEqual(length);
        length = data[at + 2] ?? 0;
        expect(length).toBeGreaterThan(0);
      }
    },
  );

  it('gives each word once where only the taps of a battery can be read', () => {
    const text = setWith().replace('battery A storage', 'battrey A storage');
    const found = tokens(text).filter(({ line }) => line === 2);
    expect(found.map(({ words }) => words)).not.toContain('battrey A storage');
    const starts = found.map(({ words }) => text.indexOf(words));
    expect(new Set(starts).size).toBe(starts.length);
  });
});
