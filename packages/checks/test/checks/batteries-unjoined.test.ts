import { describe, expect, it } from 'vitest';
import { batteriesUnjoined } from '../../src/checks/batteries-unjoined.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(batteriesUnjoined, text));
const messages = (text: string): string[] =>
  findingsOf(batteriesUnjoined, text).map(({ message }) => message);

const set = (lines: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  audio stage AF {
    transformer T1 {
      winding secondary 5200 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A- to A+
      plate to H1.start
    }
    horn H1 2000 ohms to B+90
  }
${lines}
}
`;

describe('a battery without a common return', () => {
  it('is the B battery whose strap went with the cable', () => {
    const text = batteriesUnjoined.fails;
    expect(say(text)).toEqual(['batteries-unjoined error @ battery B dry']);
    expect(messages(text)).toEqual([
      'Nothing joins B with the filament of V1, whose plate it feeds.',
    ]);
    expect(findingsOf(batteriesUnjoined, text)[0]).toMatchObject({
      parts: ['B', 'V1'],
      cure: 'Join B- to A-.',
    });
    expect(say(batteriesUnjoined.passes)).toEqual([]);
  });

  it('is joined by the fix', () => {
    const text = batteriesUnjoined.fails;
    const edit = findingsOf(batteriesUnjoined, text)[0]?.fixes[0]?.edits[0];
    if (!edit) throw new Error('there is no fix');
    const cured = text.slice(0, edit.place.start) + edit.text + text.slice(edit.place.end);
    expect(cured).toContain('wire B- to GND to A-\n');
    expect(say(cured)).toEqual([]);
  });

  it('is the C battery when its plus goes nowhere', () => {
    const text = set('  wire B- to A-');
    expect(say(text)).toEqual(['batteries-unjoined error @ battery C dry']);
    expect(messages(text)).toEqual([
      'Nothing joins C with the filament of V1, whose grid hangs on it.',
    ]);
    expect(findingsOf(batteriesUnjoined, text)[0]?.cure).toBe('Join C+ to A-.');
  });

  it('is told once for B and C that are tied to one another only', () => {
    const text = set('  wire B- to C+');
    expect(messages(text)).toEqual([
      'Nothing joins B and C with the filament of V1, which they feed.',
    ]);
    expect(findingsOf(batteriesUnjoined, text)[0]?.parts).toEqual(['B', 'C', 'V1']);
  });

  it('is told once for B and C when the one wire that joined both is gone', () => {
    const text = set('');
    expect(messages(text)).toEqual([
      'Nothing joins B and C with the filament of V1, which they feed.',
    ]);
    expect(findingsOf(batteriesUnjoined, text)[0]?.cure).toBe('Join B- and C+ to A-.');
  });

  it('is not to be joined by its plus where its minus has no tap', () => {
    const text = set('  wire C+ to A-').replace('    tap B-\n', '');
    expect(findingsOf(batteriesUnjoined, text)[0]).toMatchObject({
      cure: 'Join the zero of B, which has no tap yet, to A-.',
      fixes: [],
    });
  });

  it('is the A battery of an add-on amplifier that nothing joins to the B battery', () => {
    const text = set(`  wire B- to A- to C+
  battery D storage {
    tap D- 0 V
    tap D+ 6 V
  }
  tube V2 01-A {
    filament from D- to D+
    plate to B+90
  }`);
    expect(messages(text)).toEqual([
      'Nothing joins D with A, B and C: the plate current of V2 has no way home from its filament.',
    ]);
    expect(findingsOf(batteriesUnjoined, text)[0]?.parts).toEqual(['D', 'V2']);
  });

  it('is still told where only a grid leak of 2 megohms ties it', () => {
    const text = set('  wire C+ to A-\n  leak R1 2 meg from B- to A-');
    expect(messages(text)).toEqual([
      'Nothing joins B with the filament of V1, whose plate it feeds.',
    ]);
  });

  it('is none where a safety resistor of 5 kilohms was left in the lead', () => {
    expect(messages(set('  wire C+ to A-\n  resistor R9 5 kilohms from B- to A-'))).toEqual([]);
  });

  it('is information where a switch joins it at another position', () => {
    const text = set('  wire C+ to A-\n  post X\n  selector S2 from B- to X, A- set X');
    expect(say(text)).toEqual(['batteries-unjoined information @ battery B dry']);
  });
});

describe('a battery counts as joined', () => {
  it('by its C+ on the filament post', () => {
    expect(say(set('  post F\n  wire B- to A-\n  wire V1.filament- to F\n  wire C+ to F'))).toEqual(
      [],
    );
  });

  it('through a bias resistor in the B- lead', () => {
    expect(say(set('  resistor R1 2000 ohms from B- to A-\n  wire C+ to A-'))).toEqual([]);
  });

  it('through a resistor of unknown ohms', () => {
    expect(say(set('  resistor R1 from B- to A-\n  wire C+ to A-'))).toEqual([]);
  });

  it('on A+ as well as on A-', () => {
    expect(say(set('  wire B- to A+\n  wire C+ to A-'))).toEqual([]);
  });

  it('when the A battery of an add-on amplifier meets the other at B-', () => {
    const text = set(`  wire B- to A- to C+ to D-
  battery D storage {
    tap D- 0 V
    tap D+ 6 V
  }
  tube V2 01-A {
    filament from D- to D+
    plate to B+90
  }`);
    expect(say(text)).toEqual([]);
  });

  it('for no one when it feeds neither plate nor grid, as the cell of a crystal', () => {
    const text = set(`  wire B- to A- to C+
  battery X dry {
    tap X-
    tap X+ 1.5 V
  }
  crystal D1 mineral to X+ whisker to PH1.start
  phones PH1 2000 ohms to X-`);
    expect(say(text)).toEqual([]);
  });
});
