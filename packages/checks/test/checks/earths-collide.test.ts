import { describe, expect, it } from 'vitest';
import { earthsCollide } from '../../src/checks/earths-collide.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(earthsCollide, text));
const messages = (text: string): string[] =>
  findingsOf(earthsCollide, text).map(({ message }) => message);

const charged = (lines: string, earth = 'earthed CH+'): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  eliminator CH "charger" {
    tap CH-
    tap CH+ 7.5 V
    ${earth}
  }
  post GND ground
  wire CH- to A-
  wire CH+ to A+
${lines}
}
`;

describe('earths collide', () => {
  it('with both bench supplies earthed at their minus and B- on A+', () => {
    const text = earthsCollide.fails;
    expect(say(text)).toEqual(['earths-collide error @ eliminator B']);
    expect(messages(text)).toEqual([
      'A- of A and B- of B are both earthed, and the set holds them 6 V apart.',
    ]);
    expect(findingsOf(earthsCollide, text)[0]).toMatchObject({
      parts: ['A', 'B'],
      cure: 'Take the earth off one of them, best off B: let it float.',
    });
    expect(say(earthsCollide.passes)).toEqual([]);
  });

  it('with the battery on an earthed charger while the set is grounded', () => {
    const text = charged('  wire GND to A-');
    expect(say(text)).toEqual(['earths-collide error @ post GND ground']);
    expect(messages(text)[0]).toMatch(/^CH\+ of CH and GND are both earthed, .* apart\.$/);
    expect(findingsOf(earthsCollide, text)[0]?.cure).toContain('off CH');
  });

  it('at a position that the set is not drawn in', () => {
    const text = charged('  post X\n  selector S1 from GND to X, A- set X');
    expect(messages(text)[0]).toMatch(/^With S1 at A-, CH\+ of CH and GND/);
  });
});

describe('earths do not collide', () => {
  it('where none is stated', () => {
    expect(say(earthsCollide.fails.replaceAll(/ +earthed .*\n/g, ''))).toEqual([]);
  });

  it('where the set joins them at the same volts', () => {
    expect(say(charged('  wire GND to A-', 'earthed CH-'))).toEqual([]);
  });

  it('where a condenser leads to the ground post', () => {
    expect(say(charged('  condenser C1 .01 mfd from GND to A-'))).toEqual([]);
  });

  it('where more than a kilohm lies between them', () => {
    expect(say(charged('  resistor R1 10 kilohms from GND to A-'))).toEqual([]);
  });
});
