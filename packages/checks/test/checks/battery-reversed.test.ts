import { describe, expect, it } from 'vitest';
import { batteryReversed } from '../../src/checks/battery-reversed.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(batteryReversed, text));
const messages = (text: string): string[] =>
  findingsOf(batteryReversed, text).map(({ message }) => message);

/** An audio stage whose batteries are joined as the wires say. */
const set = (wires: string, tube = 'filament from RH1 to A+', more = ''): string => `receiver "x" {
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
  bus BIAS
  bus TOP
${wires}
  rheostat RH1 10 ohms from A- set 4 ohms
  audio stage AF {
    transformer T1 ratio 1 to 3 {
      winding secondary 5200 ohms from BIAS to V1.grid
    }
    tube V1 01-A {
      ${tube}
      plate to H1.start
    }
    horn H1 2000 ohms to TOP
  }
${more}}
`;

const right = '  wire A- to B- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to TOP';

describe('a battery is reversed', () => {
  it('when B makes the plate negative', () => {
    const text = batteryReversed.fails;
    expect(say(text)).toEqual(['battery-reversed error @ wire B+45 to A-']);
    expect(messages(text)).toEqual([
      'B is in backwards, B+45 toward the filaments and B- toward the plates: the plate of V1 stands 46 V below its filament.',
    ]);
    expect(findingsOf(batteryReversed, text)[0]?.parts).toEqual(['B', 'V1']);
    expect(say(batteryReversed.passes)).toEqual([]);
  });

  it('when C makes the grid of an amplifier positive', () => {
    const text = set('  wire A- to B-\n  wire A- to C-4.5\n  wire C+ to BIAS\n  wire B+90 to TOP');
    expect(say(text)).toEqual(['battery-reversed error @ wire A- to C-4.5']);
    expect(messages(text)).toEqual([
      'C is in backwards, C-4.5 toward the filaments and C+ toward the grids: the grid of V1 stands 3.5 V above its filament.',
    ]);
    expect(findingsOf(batteryReversed, text)[0]?.parts).toEqual(['C', 'V1']);
  });

  it('when the A leads are exchanged and every tube is lit from the wrong side', () => {
    const text = set(
      '  wire A+ to B- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to TOP',
      'filament from A+ to RH1',
    );
    expect(say(text)).toEqual(['battery-reversed warning @ battery A storage']);
    expect(messages(text)).toEqual([
      'A lights V1 from the wrong side: V1.filament- stands 5 V above V1.filament+.',
    ]);
  });

  it('and it is information where a selector puts it right', () => {
    const text = set(
      '  wire A- to B+90\n  wire A- to C+\n  wire C-4.5 to BIAS\n  post X\n  wire B+90 to X\n  selector S2 from TOP to B-, X set B-',
    );
    expect(say(text)).toEqual(['battery-reversed information @ wire A- to B+90']);
  });
});

describe('no battery is reversed', () => {
  it('in a set wired as usual', () => {
    expect(say(set(right))).toEqual([]);
  });

  it('with B- on A+', () => {
    expect(
      say(set('  wire A+ to B-\n  wire A- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to TOP')),
    ).toEqual([]);
  });

  it('with C+ on the filament, behind the rheostat', () => {
    expect(
      say(
        set('  wire A- to B-\n  wire C+ to V1.filament-\n  wire C-4.5 to BIAS\n  wire B+90 to TOP'),
      ),
    ).toEqual([]);
  });

  it('with two blocks one above the other', () => {
    const text = set(
      '  wire A- to B- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to D-\n  wire D+45 to TOP',
      'filament from RH1 to A+',
      '  battery D dry {\n    tap D-\n    tap D+45\n  }\n',
    );
    expect(say(text)).toEqual([]);
  });

  it('with a C cell in the return of a grid-leak detector', () => {
    const text = batteryReversed.passes
      .replace('leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg from V1.grid to CP')
      .replace(
        'wire B- to A-',
        'wire B- to A- to CM\n  battery C dry {\n    tap CM 0 V\n    tap CP 1.5 V\n  }',
      );
    expect(text).toContain('to CP');
    expect(say(text)).toEqual([]);
  });

  it('with a bias resistor in the B- lead', () => {
    const text = set(
      '  resistor R9 1000 ohms from B- to A-\n  wire B- to BIAS\n  wire A- to C+\n  wire B+90 to TOP',
    );
    expect(say(text)).toEqual([]);
  });

  it('with a cell that holds a meter back', () => {
    const text = set(
      '  wire A- to B- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to D+\n  wire D- to TOP',
      'filament from RH1 to A+',
      '  battery D dry {\n    tap D-\n    tap D+ 1.5 V\n  }\n',
    );
    expect(say(text)).toEqual([]);
  });

  it('with the cell of a crystal', () => {
    const text = set(
      right,
      'filament from RH1 to A+',
      '  battery D dry {\n    tap D-\n    tap D+ 1.5 V\n  }\n  crystal X1 mineral to D+ whisker to PH1.start\n  phones PH1 2000 ohms to D-\n',
    );
    expect(say(text)).toEqual([]);
  });

  it('in a set with A+ as its common side', () => {
    const text = set('  wire A+ to B- to C+\n  wire C-4.5 to BIAS\n  wire B+90 to TOP');
    expect(say(text)).toEqual([]);
  });

  it('where one tube of several has its filament ends crossed', () => {
    const text = set(
      right,
      'filament from RH1 to A+',
      '  tube V2 01-A {\n    filament from A+ to RH1\n  }\n',
    );
    expect(say(text)).toEqual([]);
  });

  it('where the volts of the C battery are not known', () => {
    const text = set(
      '  wire A- to B-\n  wire A- to D-\n  wire D+X to BIAS\n  wire B+90 to TOP',
      'filament from RH1 to A+',
      '  battery D dry {\n    tap D-\n    tap D+X\n  }\n',
    );
    expect(say(text)).toEqual([]);
  });
});
