import { describe, expect, it } from 'vitest';
import { aerialAtPlateVoltage } from '../../src/checks/aerial-at-plate-voltage.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(aerialAtPlateVoltage, text));
const messages = (text: string): string[] =>
  findingsOf(aerialAtPlateVoltage, text).map(({ message }) => message);

const set = (lines: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  post ANT aerial
  post GND ground
  wire B- to A-
  tube V1 01-A {
    filament from A- to A+
  }
${lines}
}
`;

describe('an aerial or ground post is at plate voltage', () => {
  it('when the aerial is joined to the plate', () => {
    const text = aerialAtPlateVoltage.fails;
    expect(say(text)).toEqual(['aerial-at-plate-voltage warning @ wire ANT to V1.plate']);
    expect(messages(text)).toEqual([
      'B+45 reaches the aerial post ANT through PH1 and puts 45 V on it.',
    ]);
    expect(findingsOf(aerialAtPlateVoltage, text)[0]).toMatchObject({ parts: ['ANT', 'PH1'] });
    expect(say(aerialAtPlateVoltage.passes)).toEqual([]);
  });

  it('by wire alone', () => {
    expect(messages(set('  wire ANT to B+90'))).toEqual([
      'B+90 reaches the aerial post ANT by wire alone and puts 90 V on it.',
    ]);
  });

  it('and is told once for an aerial and a ground at the two ends of one coil', () => {
    const text = set(
      '  coil L1 {\n    winding plate 3 ohms from ANT to GND\n  }\n  wire GND to V1.plate\n  resistor R1 10 kilohms from V1.plate to B+90',
    );
    expect(say(text)).toHaveLength(1);
  });

  it('when the ground post is at the wrong end of the B battery', () => {
    expect(messages(set('  wire GND to B+90'))).toEqual([
      'B+90 reaches the ground post GND by wire alone and puts 90 V on it.',
    ]);
  });

  it('at a position that the set is not drawn in', () => {
    const text = set('  post X\n  selector S2 from ANT to X, B+90 set X');
    expect(messages(text)).toEqual([
      'With S2 at B+90, B+90 reaches the aerial post ANT through S2 and puts 90 V on it.',
    ]);
  });
});

describe('an aerial or ground post is safe', () => {
  it('behind a fixed condenser', () => {
    expect(say(set('  condenser C1 .001 mfd from ANT to B+90'))).toEqual([]);
  });

  it('behind more than a megohm', () => {
    expect(say(set('  leak R1 2 meg from ANT to B+90'))).toEqual([]);
  });

  it('on B-, where it belongs', () => {
    expect(say(set('  wire GND to B-'))).toEqual([]);
  });

  it('on the filament side, though a bleeder leads there', () => {
    const text = set(
      '  coil L1 {\n    winding aerial 2 ohms from GND to ANT\n  }\n  wire GND to A-\n  resistor R1 10 kilohms from B+90 to GND',
    );
    expect(say(text)).toEqual([]);
  });

  it('with a tap of unknown volts', () => {
    const text = set(
      '  battery D dry {\n    tap D-\n    tap D+X\n  }\n  wire D- to A-\n  wire ANT to D+X',
    );
    expect(say(text)).toEqual([]);
  });
});
