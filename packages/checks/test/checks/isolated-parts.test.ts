import { describe, expect, it } from 'vitest';
import { isolatedParts } from '../../src/checks/isolated-parts.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const check = isolatedParts;
const before = 'condenser C1 variable';
/** The example with these lines in it. */
const withLines = (...lines: string[]) =>
  readingExample([before, `${lines.join('\n  ')}\n  ${before}`]);
const found = (...lines: string[]) => {
  const text = withLines(...lines);
  return told(text, findingsOf(check, text));
};

describe('isolated-parts', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'isolated-parts warning @ condenser C3 .001 mfd',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('a part joined to nothing', () => {
    const [only] = findingsOf(check, check.fails);
    expect(only?.message).toBe('C3 is joined to nothing.');
  });

  it('parts joined to each other only are one finding, with all their lines', () => {
    const text = withLines(
      'resistor R8 50 ohms',
      'resistor R9 50 ohms',
      'wire R8.finish to R9.start',
      'wire R8.start to R9.finish',
    );
    const [only, ...rest] = findingsOf(check, text);
    expect(rest).toEqual([]);
    expect(only?.parts).toEqual(['R8', 'R9']);
    expect(only?.related).toHaveLength(1);
  });

  it('a whole tube and a whole coil', () => {
    expect(found('tube V9 01-A', 'coil L9 {', '  winding a 5 turns', '}')).toEqual([
      'isolated-parts warning @ tube V9 01-A',
      'isolated-parts warning @ winding a 5 turns',
    ]);
  });

  it('a set of which nothing is joined yet is told so once, softly', () => {
    const text = 'receiver "New" {\n  tube V1 01-A\n  resistor R1 5 ohms\n}\n';
    expect(told(text, findingsOf(check, text))).toEqual(['isolated-parts information @ "New"']);
  });

  it.each([
    [
      'an aerial circuit that only its field joins',
      [
        'post ANT2 aerial',
        'post GND2 ground',
        'coil L9 {',
        '  winding a 5 turns from GND2 to ANT2',
        '  winding b 5 turns from A- to ANT',
        '}',
      ],
    ],
    [
      'a wave trap that stands by itself',
      [
        'coil L9 {',
        '  winding a 60 turns',
        '}',
        'condenser C9 variable 20 to 500 mmfd across L9.a',
      ],
    ],
    [
      'a loop with its condenser',
      ['loop LP9 180 uH', 'condenser C9 variable 20 to 500 mmfd across LP9'],
    ],
    [
      'what a condenser ties',
      ['resistor R9 50 ohms from C9.finish to ANT', 'condenser C9 .001 mfd from A-'],
    ],
    [
      'what a selector reaches in another position',
      [
        'resistor R9 50 ohms from P8 to P9',
        'post P8',
        'post P9',
        'selector S9 from ANT to GND, P8',
      ],
    ],
    ['phones on a plug', ['phones PH9 2000 ohms into J9', 'jack J9 from A- to A+']],
    [
      'a winding that is not needed',
      ['coil L9 {', '  winding a 5 turns from A- to ANT', '  winding b 5 turns', '}'],
    ],
    ['a post', ['post SPARE']],
  ])('is silent: %s', (_, lines) => {
    expect(heard(check, withLines(...lines))).toEqual([]);
  });

  it('a set of ten thousand parts is gone through at once', () => {
    const lines = Array.from({ length: 10_000 }, (_, i) => `resistor R${i}x 5 ohms from A- to A+`);
    const text = withLines(...lines);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
