import { describe, expect, it } from 'vitest';
import { danglingEnd } from '../../src/checks/dangling-end.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = danglingEnd;
const before = 'condenser C1 variable';
/** The example with these lines in it. */
const withLines = (...lines: string[]) =>
  readingExample([before, `${lines.join('\n  ')}\n  ${before}`]);
const found = (...lines: string[]) => {
  const text = withLines(...lines);
  return told(text, findingsOf(check, text));
};

describe('dangling-end', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'dangling-end warning @ condenser C3 .001 mfd from V1.plate',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('names the end that is free and the one in use', () => {
    const [only] = findingsOf(check, check.fails);
    expect(only?.message).toBe('C3.finish is joined to nothing; of C3 only start is in use.');
    expect(only?.parts).toEqual(['C3']);
  });

  it.each([
    ['resistor R9 50 ohms from A-', 'resistor R9 50 ohms from A-'],
    ['switch S9 from A-', 'switch S9 from A-'],
    ['jack J9 from A-', 'jack J9 from A-'],
    ['potentiometer P9 400 ohms arm to A-', 'potentiometer P9 400 ohms arm to A-'],
  ])('a part with one end joined: %s', (line, place) => {
    expect(found(line)).toEqual([`dangling-end warning @ ${place}`]);
  });

  it('a bus that nothing else is on joins nothing', () => {
    expect(found('bus LOST', 'resistor R9 50 ohms from A- to LOST')).toEqual([
      'dangling-end warning @ resistor R9 50 ohms from A- to LOST',
    ]);
  });

  it('a winding with one end joined is a hint: it may work by its capacity', () => {
    expect(found('coil L9 {', '  winding a 5 turns from A-', '}')).toEqual([
      'dangling-end hint @ winding a 5 turns from A-',
    ]);
  });

  describe('the tuned coil of a grid that is open at its cold end', () => {
    const open = readingExample(
      [' spaced 1/4 in from GND', ' spaced 1/4 in'],
      ['rotor to L1.grid.start', 'rotor to GND'],
    );

    it('is a warning: the leak carries all, and nothing is tuned', () => {
      expect(told(open, findingsOf(check, open))).toEqual([
        'dangling-end warning @ winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in',
      ]);
      const [only] = findingsOf(check, open);
      expect(only?.message).toBe(
        'L1.grid.start is joined to nothing: the grid circuit of V1 is open there, and C1 tunes nothing.',
      );
      expect(only?.parts).toEqual(['L1.grid', 'V1']);
    });

    it('is closed by its fix', () => {
      expect(heard(check, afterFix(check, open))).toEqual([]);
    });

    it('without a condenser to tune it may work by its capacity: a hint', () => {
      const text = readingExample(
        [' spaced 1/4 in from GND', ' spaced 1/4 in'],
        [
          'condenser C1 variable 20 to 500 mmfd rotor to L1.grid.start stator to L1.grid.finish',
          '',
        ],
      );
      expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['hint']);
    });
  });

  it('a shield that is joined to nothing is a hint', () => {
    expect(found('shield SH1 around L1')).toEqual(['dangling-end hint @ shield SH1 around L1']);
  });

  it('a wire with one end is told of too', () => {
    expect(found('wire A-')).toEqual(['dangling-end error @ wire A-']);
  });

  it.each([
    [
      'posts and unused battery taps',
      ['post SPARE', 'battery C dry {', '  tap C+', '  tap C-4.5', '}', 'wire C+ to A-'],
    ],
    [
      'dead-end turns of a tapped coil',
      ['coil L9 {', '  winding a 20 turns tap 10 from A-', '}', 'wire L9.a.tap10 to ANT'],
    ],
    [
      'the unused half of a coil',
      ['coil L9 {', '  winding a 20 turns centre from A-', '}', 'wire L9.a.centre to ANT'],
    ],
    [
      'a second winding that is not needed',
      ['coil L9 {', '  winding a 5 turns from A- to ANT', '  winding b 5 turns', '}'],
    ],
    ['a potentiometer as a rheostat', ['potentiometer P9 400 ohms from A- arm to ANT']],
    ['a potentiometer of which the arm is not used', ['potentiometer P9 400 ohms from A- to A+']],
    ['a tap of a choke', ['choke CH9 30 H 400 ohms centre from A- to ANT']],
    [
      'an end that a selector reaches in some position',
      ['resistor R9 50 ohms from A-', 'selector S9 from ANT to GND, R9.finish'],
    ],
    ['a switch with extra poles only', ['switch S9 makes A- to ANT']],
    ['phones on a plug', ['phones PH9 2000 ohms into J9', 'jack J9 from A- to A+']],
    ['a part joined to nothing at all, which is an isolated part', ['resistor R9 50 ohms']],
    ['a tube, whose electrodes have checks of their own', ['tube V9 01-A']],
  ])('is silent: %s', (_, lines) => {
    expect(heard(check, withLines(...lines))).toEqual([]);
  });
});
