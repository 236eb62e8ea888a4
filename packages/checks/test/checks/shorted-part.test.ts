import { describe, expect, it } from 'vitest';
import { shortedPart } from '../../src/checks/shorted-part.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const check = shortedPart;
const before = 'condenser C1 variable';
/** The example with these lines in it. */
const withLines = (...lines: string[]) =>
  readingExample([before, `${lines.join('\n  ')}\n  ${before}`]);
const found = (...lines: string[]) => {
  const text = withLines(...lines);
  return told(text, findingsOf(check, text));
};

describe('shorted-part', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'shorted-part warning @ condenser C3 .001 mfd from V1.plate to PH1.start',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('names the part and the point', () => {
    const text = withLines('leak R9 2 meg from GND to A-');
    const [only] = findingsOf(check, text);
    expect(only?.message).toBe('Both ends of R9 are on A-.');
    expect(only?.parts).toEqual(['R9']);
  });

  it.each([
    'leak R9 2 meg from A- to A-',
    'rheostat R9 20 ohms from A- to GND',
    'switch S9 from A- to GND',
    'choke CH9 30 H from A- to GND',
    'potentiometer P9 400 ohms from A- to GND arm to B-',
    'phones PH9 2000 ohms from A- to GND',
  ])('%s', (line) => {
    expect(found(line)).toEqual([`shorted-part warning @ ${line}`]);
  });

  it('points at a wire elsewhere that does it', () => {
    const text = withLines('resistor R9 50 ohms from ANT', 'wire R9.finish to ANT');
    const [only] = findingsOf(check, text);
    expect(only?.related.map(({ place }) => text.slice(place.start, place.end))).toEqual([
      'wire R9.finish to ANT',
    ]);
  });

  it('a winding on iron, and one alone on its form', () => {
    expect(
      found(
        'transformer T9 {',
        '  winding primary from A- to ANT',
        '  winding secondary from GND to A-',
        '}',
      ),
    ).toHaveLength(1);
    expect(found('coil L9 {', '  winding only 5 turns from A- to GND', '}')).toHaveLength(1);
  });

  it('shorted dead-end turns are information', () => {
    const lines = [
      'coil L9 {',
      '  winding a 20 turns tap 10 from A- to ANT',
      '}',
      'wire L9.a.tap10 to L9.a.finish',
    ];
    expect(found(...lines)).toEqual([
      'shorted-part information @ winding a 20 turns tap 10 from A- to ANT',
    ]);
  });

  it.each([
    ['the strap of B- and A-', []],
    [
      'a C battery’s posts strapped',
      ['battery C dry {', '  tap C+', '  tap C-4.5', '}', 'wire C+ to C-4.5'],
    ],
    [
      'a potentiometer with its arm on one end',
      ['potentiometer P9 400 ohms from A- to A+ arm to A+'],
    ],
    [
      'a switch across a part',
      ['condenser C9 .00025 mfd from ANT to GND', 'switch S9 from ANT to GND closed'],
    ],
    [
      'a closed ring beside a winding that is in use',
      [
        'coil L9 {',
        '  winding a 20 turns from A- to ANT',
        '  winding ring 1 turns beside a',
        '}',
        'wire L9.ring.start to L9.ring.finish',
      ],
    ],
    ['a tube used as a diode', ['wire V1.grid to PH1.start']],
  ])('is silent: %s', (_, lines) => {
    expect(heard(check, withLines(...lines))).toEqual([]);
  });
});
