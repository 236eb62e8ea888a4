import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readReceivers } from '../src/index.ts';
import { connectingWords, statementWords } from '../src/words.ts';

const words = [
  ...statementWords,
  ...connectingWords,
  'V1',
  'L1.grid',
  'A+',
  'B+67',
  'C-4.5',
  '{',
  '}',
  '\n',
  '"x"',
  '"',
  '5',
  '1/2',
  'mfd',
  'ohms',
  ',',
  '%',
  '//',
  '/*',
  '*/',
  '01-A',
  'M',
  '@',
];

function reads(text: string) {
  const { circuits, remarks, read } = readReceivers(text, 'fuzz.receiver');
  for (const found of [...remarks, ...circuits.flatMap((circuit) => circuit.remarks)]) {
    expect(found.place.start).toBeGreaterThanOrEqual(0);
    expect(found.place.end).toBeLessThanOrEqual(text.length);
    expect(found.message).not.toMatch(/undefined|NaN|\[object/);
  }
  return read;
}

describe('reading any text', () => {
  it('never throws on any string', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => void reads(text)),
      { numRuns: 500 },
    );
  });

  it('never throws on a soup of the language’s own words', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...words), { maxLength: 80 }),
        (soup) => void reads(soup.join(' ')),
      ),
      { numRuns: 1500 },
    );
  });

  it('never throws on a soup inside a receiver, stage and tube', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...words), { maxLength: 60 }),
        (soup) =>
          void reads(
            `receiver "S" {\n radio stage R {\n tube V1 01-A {\n ${soup.join(' ')}\n }\n }\n}\n`,
          ),
      ),
      { numRuns: 1500 },
    );
  });

  it('tells of blocks nested without end, and does not fall over', () => {
    for (const open of ['receiver "x" {', '{', 'radio stage R {', 'tube V1 01-A {\n']) {
      const read = reads(open.repeat(20_000));
      expect(read.unreadable.length).toBeGreaterThan(0);
    }
  });

  it('reads an empty text, white space and a lone comment as nothing', () => {
    for (const text of ['', ' \n\t\r\n', '// only this', '/* only this */', '\ufeff']) {
      expect(reads(text).unreadable).toEqual([]);
    }
  });
});
