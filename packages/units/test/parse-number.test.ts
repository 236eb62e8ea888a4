import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumber } from '../src/index.ts';

describe('a number as printed on a part', () => {
  it.each([
    ['2', 2],
    ['.00025', 0.00025],
    ['0.5', 0.5],
    ['5.', 5],
    ['112.5', 112.5],
    ['10,000', 10000],
    ['1,000,000', 1000000],
    ['1/4', 0.25],
    ['2 3/4', 2.75],
    ['2-3/4', 2.75],
    ['2 1 / 2', 2.5],
    ['2\u00BE', 2.75],
    ['2 \u00BD', 2.5],
    ['\u00BC', 0.25],
    ['3\u20444', 0.75],
    ['-4.5', -4.5],
    ['\u22124.5', -4.5],
    ['\u20134.5', -4.5],
    ['- 4.5', -4.5],
    ['+45', 45],
    ['-2 1/2', -2.5],
    [' 7 ', 7],
    ['2\u00A03/4', 2.75],
  ])('%j is %d', (text, value) => {
    expect(parseNumber(text)).toBe(value);
  });

  it.each([
    '',
    ' ',
    '.',
    '-',
    '+',
    'two',
    '1/0',
    '1 2',
    '1/',
    '/4',
    '1.2.3',
    '1e3',
    '0x10',
    '--1',
    '10,00',
    '1,0000',
    '2 .5',
    'Infinity',
    'NaN',
    '1.5/2',
    '2meg',
    '9'.repeat(320),
    '9'.repeat(5000),
  ])('%j is no number', (text) => {
    expect(parseNumber(text)).toBeUndefined();
  });

  it.each(['-0', '\u22120', '-.0', '-0/5'])('%j is plain zero, not minus zero', (text) => {
    expect(parseNumber(text)).toBe(0);
  });

  it('reads back any decimal', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 6 }), (n, d) => {
        const text = (n / 10 ** d).toFixed(d);
        expect(parseNumber(text)).toBe(Number(text) + 0);
      }),
    );
  });

  it('reads back any mixed number', () => {
    fc.assert(
      fc.property(
        fc.nat(500),
        fc.nat(63),
        fc.integer({ min: 1, max: 64 }),
        (whole, above, below) => {
          expect(parseNumber(`${whole} ${above}/${below}`)).toBe(whole + above / below);
        },
      ),
    );
  });
});
