import { describe, expect, it } from 'vitest';
import { batteryShorted } from '../../src/checks/battery-shorted.ts';
import { findingsOf, told } from '../support.ts';

const batteries = `
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
`;
const set = (lines: string): string => `receiver "x" {${batteries}${lines}\n}\n`;
const say = (text: string): string[] => told(text, findingsOf(batteryShorted, text));
const messages = (text: string): string[] =>
  findingsOf(batteryShorted, text).map(({ message }) => message);

describe('a shorted battery', () => {
  it('is found where B- is strapped to both sides of A', () => {
    const text = batteryShorted.fails;
    expect(say(text)).toEqual(['battery-shorted error @ wire B- to A- to A+']);
    expect(messages(text)).toEqual([
      'A- and A+ of A are joined by wire alone, with 6 V between them.',
    ]);
  });

  it('is cured by leaving B- on one side only', () => {
    const text = set('  wire B- to A-\n  wire A+ to B-');
    expect(findingsOf(batteryShorted, text).map(({ cure }) => cure)).toEqual([
      'Leave B- on one of the two only, A- or A+.',
    ]);
    expect(say(batteryShorted.passes)).toEqual([]);
  });

  it('names the plate battery and the wire when B+ is wired to B-', () => {
    const text = set('  wire B- to A-\n  wire B+45 to A-');
    expect(say(text)).toEqual(['battery-shorted error @ wire B+45 to A-']);
    expect(messages(text)).toEqual([
      'B- and B+45 of B are joined by wire alone, with 45 V between them.',
    ]);
  });

  it('is found through a coil of a few ohms', () => {
    const text = set('  wire B- to A-\n  coil L1 {\n    winding plate 3 ohms from B+90 to A-\n  }');
    expect(say(text)).toEqual(['battery-shorted error @ winding plate 3 ohms from B+90 to A-']);
    expect(messages(text)[0]).toContain('B- and B+90 of B are joined through L1.plate');
  });

  it('is found through a switch that closes across the battery', () => {
    const text = set('  switch S1 from A- to A+ closed');
    expect(messages(text)).toEqual([
      'A- and A+ of A are joined through S1, with 6 V between them.',
    ]);
  });

  it('is found at a position that the set is not drawn in', () => {
    const text = set('  selector S2 from A- to A+, B- set B-');
    expect(messages(text)).toEqual([
      'With S2 at A+, A- and A+ of A are joined through S2, with 6 V between them.',
    ]);
  });

  it('is told once for a battery, however many of its taps are joined', () => {
    const text = set('  wire B- to B+45 to B+90');
    expect(messages(text)).toEqual([
      'B- and B+90 of B are joined by wire alone, with 90 V between them.',
    ]);
  });

  it('names an eliminator as what it is', () => {
    const text = `receiver "x" {
  eliminator E {
    tap E-
    tap E+90 90 V at 10 mA resistance 2 kilohms
  }
  wire E- to E+90
}
`;
    expect(findingsOf(batteryShorted, text)[0]?.why).toContain('rectifier');
  });
});

describe('no short is', () => {
  it('ten filaments across the battery, hot or cold', () => {
    const tubes = Array.from(
      { length: 10 },
      (_, index) => `  tube V${index} 01-A {\n    filament from A- to A+\n  }`,
    );
    expect(say(set(tubes.join('\n')))).toEqual([]);
  });

  it('a lamp, a ballast with its tube, or a resistor', () => {
    const text = set(
      '  lamp LP1 6 V .3 A from A- to A+\n  ballast K1 5 V .25 A from A- to A+\n  resistor R1 4 ohms from A- to A+',
    );
    expect(say(text)).toEqual([]);
  });

  it('a stabilizing potentiometer across A', () => {
    expect(say(set('  potentiometer P1 200 ohms from A- to A+ arm to C+ set 30 %'))).toEqual([]);
  });

  it('a charger across A', () => {
    const text = set(
      '  eliminator CH {\n    tap CH-\n    tap CH+ 7.5 V\n  }\n  wire CH- to A-\n  wire CH+ to A+',
    );
    expect(say(text)).toEqual([]);
  });

  it('the strap across the C posts of a set without a C battery', () => {
    const text = `receiver "x" {
  post CP
  post CM
  wire CP to CM
}
`;
    expect(say(text)).toEqual([]);
  });

  it('a strap to a tap whose volts are not known', () => {
    const text = `receiver "x" {
  battery B dry {
    tap B-
    tap B+DET
  }
  wire B- to B+DET
}
`;
    expect(say(text)).toEqual([]);
  });

  it('B- on A+, which many sets have', () => {
    expect(say(set('  wire B- to A+'))).toEqual([]);
  });
});
