import { describe, expect, it } from 'vitest';
import { tapName } from '../../src/checks/tap-name.ts';
import { findingsOf, told } from '../support.ts';

const battery = (...taps: readonly string[]): string =>
  `receiver "x" {\n  battery X dry {\n${taps.map((tap) => `    tap ${tap}`).join('\n')}\n  }\n}\n`;
const say = (text: string): string[] => told(text, findingsOf(tapName, text));
const messages = (text: string): string[] =>
  findingsOf(tapName, text).map(({ message }) => message);

/** The text with the first fix of the first finding made. */
function fixed(text: string): string {
  const edits = [...(findingsOf(tapName, text)[0]?.fixes[0]?.edits ?? [])];
  return edits
    .sort((a, b) => b.place.start - a.place.start)
    .reduce(
      (out, { place, text: put }) => out.slice(0, place.start) + put + out.slice(place.end),
      text,
    );
}

describe('a tap is misnamed', () => {
  it('when its name says 45 and its volts say 22', () => {
    const text = tapName.fails;
    expect(say(text)).toEqual(['tap-name warning @ tap B+45 22.5 V']);
    expect(messages(text)).toEqual(['B+45 of B is stated as 22.5 V.']);
    expect(findingsOf(tapName, text)[0]?.cure).toContain('45 V');
    expect(say(tapName.passes)).toEqual([]);
  });

  it('when a zero slipped in', () => {
    expect(say(battery('B-', 'B+45 450 V'))).toEqual(['tap-name warning @ tap B+45 450 V']);
  });

  it('when a C tap is stated above its plus', () => {
    const text = battery('C+ 0 V', 'C-4.5 4.5 V');
    expect(messages(text)).toEqual(['C-4.5 of X is called negative and stated as 4.5 V.']);
  });

  it('when A+ lies below A-', () => {
    const text = battery('A- 6 V', 'A+ 0 V');
    expect(messages(text)).toEqual(['A+ of X, at 0 V, lies below A-, at 6 V.']);
  });
});

describe('the fix', () => {
  it('states what the name says, with the half volt that belongs to it', () => {
    const text = battery('B-', 'B+67 90 V');
    expect(fixed(text)).toContain('tap B+67 67.5 V');
    expect(say(fixed(text))).toEqual([]);
  });

  it('turns a sign', () => {
    const text = fixed(battery('C+ 0 V', 'C-4.5 4.5 V'));
    expect(text).toContain('tap C-4.5 -4.5 V');
    expect(say(text)).toEqual([]);
  });

  it('exchanges the volts of a plus and a minus', () => {
    const text = fixed(battery('A- 6 V', 'A+ 0 V'));
    expect(text).toContain('tap A- 0 V\n    tap A+ 6 V');
    expect(say(text)).toEqual([]);
  });
});

describe('a tap is named well', () => {
  it('with its half volt cut off', () => {
    expect(say(battery('B-', 'B+22 22.5 V', 'B+67 67.5 V', 'B+112 112.5 V'))).toEqual([]);
    expect(say(battery('C+', 'C-1 -1.5 V', 'C-4 -4.5 V', 'C-22 -22.5 V'))).toEqual([]);
  });

  it('on a fresh block of 47 V called 45', () => {
    expect(say(battery('B-', 'B+45 47 V'))).toEqual([]);
  });

  it('without a number', () => {
    expect(say(battery('A- 0 V', 'A+ 6.3 V'))).toEqual([]);
    expect(say(battery('B-', 'B+DET 45 V', 'B+AMP 90 V'))).toEqual([]);
  });

  it('when its number is counted from a plus that is not the zero', () => {
    expect(say(battery('C- 0 V', 'C-4.5 4.5 V', 'C+ 9 V'))).toEqual([]);
  });

  it('when B- lies below zero for a bias from the B battery', () => {
    expect(say(battery('B- -9 V', 'F- 0 V', 'B+90 90 V'))).toEqual([]);
  });

  it('whatever it is called when its volts come from its name', () => {
    expect(say(battery('B-', 'B+45', 'B+90'))).toEqual([]);
  });
});
