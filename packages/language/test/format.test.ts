import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '@setwright/circuit';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { itemsOf } from '../src/format/items.ts';
import { formatText, readReceivers, tubeLibraryText } from '../src/index.ts';

const folder = join(import.meta.dirname, '../../../examples');
const wholeTexts: readonly (readonly [string, string])[] = [
  ...readdirSync(folder)
    .filter((name) => name.endsWith('.receiver'))
    .map((name) => [name, readFileSync(join(folder, name), 'utf8')] as const),
  ['the tube library', tubeLibraryText],
];

const formatted = (text: string) => formatText(text).text;

const images = (text: string, tokens: boolean) =>
  itemsOf(text)
    .filter(({ kind }) => (kind === 'token') === tokens)
    .map(({ image }) => image.replace(/\r\n?/g, '\n'));

/** What a circuit says, without where it says it. */
const withoutPlaces = (circuit: Circuit) =>
  JSON.parse(
    JSON.stringify(
      { ...circuit, partNamed: undefined, endNamed: undefined, partOfEnd: undefined },
      (key, value) => {
        if (/place$/i.test(key) || key === 'edits') return undefined;
        if (key === 'joins' && value[0]?.file !== undefined) return value.length;
        if (key === 'unread') return value.length;
        if (key === 'text') return value?.replace(/\s+/g, ' ');
        return value instanceof Set ? [...value] : value;
      },
    ),
  );

const circuitsOf = (text: string) =>
  readReceivers(text, 'test.receiver').circuits.map(withoutPlaces);

/** A text with its spaces, line ends and indentation thrown about, as no author would. */
const disordered = (text: string, random: () => number) =>
  text
    .split('\n')
    .map((line) => {
      const words = line.trim().replace(/(?<=\S) (?=[^0-9"]*$)/g, () => '   '.slice(random() * 2));
      return ' '.repeat(Math.floor(random() * 9)) + words + ' '.repeat(Math.floor(random() * 3));
    })
    .join(random() < 0.5 ? '\n' : '\n\n\n');

function randomOf(seed: number): () => number {
  let state = seed >>> 0 || 1;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

describe('the format of whole sets', () => {
  it.each(wholeTexts)('%s is in order already, or is put in order once', (_, text) => {
    const once = formatted(text);
    expect(formatted(once)).toBe(once);
  });

  it.each(wholeTexts)('%s keeps its words and comments', (_, text) => {
    const once = formatted(text);
    expect(images(once, true)).toEqual(images(text, true));
    expect(images(once, false)).toEqual(images(text, false));
  });

  it.each(wholeTexts)('%s stays the same set, however it was spaced', (name, text) => {
    const thrown = disordered(text, randomOf(name.length * 7919));
    const { text: once, readable } = formatText(thrown);
    expect(readable).toBe(true);
    expect(formatted(once)).toBe(once);
    expect(circuitsOf(once)).toEqual(circuitsOf(thrown));
    expect(circuitsOf(once)).toEqual(circuitsOf(text));
  });
});

describe('the format of lines', () => {
  const both = (given: string, wanted: string) => {
    expect(formatText(given)).toEqual({ text: wanted, readable: true });
    expect(formatText(wanted)).toEqual({ text: wanted, readable: true });
  };

  it('indents a block two spaces and puts one space between words', () => {
    both(
      'receiver   "One"   {\nyear  1926\n      post ANT   aerial\n }\n',
      'receiver "One" {\n  year 1926\n  post ANT aerial\n}\n',
    );
  });

  it('leaves the units and numbers as the author wrote them', () => {
    both(
      'condenser C1 .00025 mfd\nresistor R1 2 3/4  meg\n',
      'condenser C1 .00025 mfd\nresistor R1 2 3/4 meg\n',
    );
  });

  it('keeps the name of a type whole that begins with a figure', () => {
    const text = 'receiver "A" {\n  tube V1 27x\n  resistor R1 4 ohms\n}\n\ntube type 27x {\n}\n';
    expect(formatted(text.replace('4 ohms', '4ohms'))).toBe(text);
  });

  it('puts no space before a comma and one behind it', () => {
    both('gang G1 C1 ,C2,  C3\n', 'gang G1 C1, C2, C3\n');
  });

  it('keeps a block on one line where it stood on one', () => {
    both('battery C dry {tap C+   tap C-4.5}\n', 'battery C dry { tap C+ tap C-4.5 }\n');
  });

  it('opens a block that no longer fits its line, one fact a line', () => {
    const taps = [
      'C+',
      'C-1.5',
      'C-3',
      'C-4.5',
      'C-9',
      'C-13.5',
      'C-16.5',
      'C-22.5',
      'C-27',
      'C-40',
    ];
    both(
      `battery C dry { ${taps.map((tap) => `tap ${tap}`).join(' ')} }\n`,
      `battery C dry {\n${taps.map((tap) => `  tap ${tap}\n`).join('')}}\n`,
    );
  });

  it('opens a block that stood on more than one line', () => {
    both('battery C dry { tap C+\n tap C-4.5 }\n', 'battery C dry {\n  tap C+\n  tap C-4.5\n}\n');
  });

  it('joins a brace to the line of its statement, before a comment between them', () => {
    both(
      'receiver "One" // the first\n// of three\n{\nyear 1926\n}\n',
      'receiver "One" { // the first\n  // of three\n  year 1926\n}\n',
    );
  });

  it('gives each statement a line of its own', () => {
    both('post ANT aerial post GND ground\n', 'post ANT aerial\npost GND ground\n');
  });

  it('sets what carries a line on two deeper', () => {
    both(
      'receiver "One" {\ncondenser C1 .5 mfd\n        from A\n    // to the bus\n        to B\n}\n',
      'receiver "One" {\n  condenser C1 .5 mfd\n    from A\n    // to the bus\n    to B\n}\n',
    );
  });

  it('keeps one empty line of several, and none at the ends', () => {
    both('\n\npost A\n\n\n\npost B\n\n\n', 'post A\n\npost B\n');
  });

  it('keeps comments, also behind a line and between words', () => {
    both(
      '   // above\npost A   // behind\n\tpost B /* between */ aerial\n/* left\n   as it is */ post C\n',
      '// above\npost A // behind\npost B /* between */ aerial\n/* left\n   as it is */\npost C\n',
    );
  });

  it('ends lines as the file did', () => {
    both('post  A\r\npost B\r\n', 'post A\r\npost B\r\n');
  });

  it('keeps the mark of byte order', () => {
    both('\ufeffpost  A\n', '\ufeffpost A\n');
  });

  it('makes nothing of an empty text', () => {
    both(' \n\n', '');
  });

  it('leaves the words of a line that cannot be read, and only moves it', () => {
    both(
      'receiver "One" {\npost   A   @@   b\n   post  B\n}\n',
      'receiver "One" {\n  post   A   @@   b\n  post B\n}\n',
    );
  });

  it('gives back a text whose braces do not match', () => {
    const text = 'receiver  "One" {\n  post A\n';
    expect(formatText(text)).toEqual({ text, readable: false });
  });
});

describe('the format of any text', () => {
  const line = fc.constantFrom(
    'receiver "x" {',
    'battery C dry { tap C+ tap C-4.5 }',
    'radio stage RF1 {',
    '}',
    '{',
    '} }',
    'post A  aerial',
    'condenser C1 .5 mfd 1/2 2 3/4',
    'from A',
    'to B, C,',
    'wire A to B /* why */ to C',
    '/* two\n lines */ post B',
    '// a remark  ',
    '/* a remark */',
    'suppose "x" { set R1 3 ohms',
    'set R1 3 ohms',
    'tap 4 to B',
    'selector S from A to B,',
    'transformer T1 ratio 1 to 3 {',
    '@@ } {',
    'note "never closed {',
    'tube V1 01-A { plate to B grid to C }',
    '',
    'meant joined-twice "so"',
  );
  const text = fc
    .array(fc.tuple(fc.nat(7), line, fc.constantFrom('\n', ' ', '\r\n', '\n\n\n')), {
      maxLength: 14,
    })
    .map((rows) => rows.map(([indent, words, end]) => ' '.repeat(indent) + words + end).join(''));

  it('is the same again when it is formatted again', () => {
    fc.assert(
      fc.property(text, (given) => {
        const once = formatted(given);
        expect(formatted(once)).toBe(once);
      }),
      { numRuns: 300, seed: 1926 },
    );
  });

  it('has the same words, and the same sets in it', () => {
    fc.assert(
      fc.property(text, (given) => {
        const once = formatted(given);
        expect(images(once, true)).toEqual(images(given, true));
        expect(images(once, false)).toEqual(images(given, false));
        expect(circuitsOf(once)).toEqual(circuitsOf(given));
      }),
      { numRuns: 150, seed: 1927 },
    );
  });

  it('is put in order wherever braces match and every line can be read', () => {
    fc.assert(
      fc.property(text, (given) => {
        const { read } = readReceivers(given, 'test.receiver');
        fc.pre(read.unreadable.length === 0);
        expect(formatText(given).readable).toBe(true);
      }),
      { numRuns: 150, seed: 1928 },
    );
  });

  it('never throws, whatever the characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (given) => {
        const once = formatted(given);
        expect(formatted(once)).toBe(once);
      }),
      { numRuns: 300, seed: 1929 },
    );
  });
});
