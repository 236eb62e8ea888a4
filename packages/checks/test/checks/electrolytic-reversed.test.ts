import { describe, expect, it } from 'vitest';
import { electrolyticReversed } from '../../src/checks/electrolytic-reversed.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(electrolyticReversed, text));
const across = (ends: string): string =>
  edited(electrolyticReversed.passes, ['positive to B+45 negative to B-', ends]);
const bypass = (ends: string): string =>
  [
    'receiver "Lantern Cove Cathode" {',
    '  battery A storage {',
    '    tap A- 0 V',
    '    tap A+ 2.5 V',
    '  }',
    '  battery B dry {',
    '    tap B-',
    '    tap B+90',
    '  }',
    '  wire B- to A-',
    '  tube V1 27 {',
    '    heater from A- to A+',
    '    plate to B+90',
    '    grid to B-',
    '  }',
    '  resistor R1 2000 ohms from V1.cathode to B-',
    `  condenser C1 10 mfd electrolytic ${ends}`,
    '}',
  ].join('\n');

describe('an electrolytic the wrong way round', () => {
  it('is found across an eliminator, with the volts it climbs to', () => {
    const text = electrolyticReversed.fails;
    expect(say(text)).toEqual([
      'electrolytic-reversed error @ condenser C4 8 mfd 450 V electrolytic positive to B- negative to B+45',
    ]);
    expect(heard(electrolyticReversed, text)).toEqual([
      'C4 is the wrong way round: its negative end stands 65 V above its positive end.',
    ]);
    expect(findingsOf(electrolyticReversed, text)[0]?.parts).toEqual(['C4']);
  });

  it('is cured by turning it', () => {
    const after = afterFix(electrolyticReversed, electrolyticReversed.fails);
    expect(after).toContain('positive to B+45 negative to B-');
    expect(heard(electrolyticReversed, after)).toEqual([]);
    expect(heard(electrolyticReversed, electrolyticReversed.passes)).toEqual([]);
  });

  it('is found across a cathode resistor, which the plate current makes positive', () => {
    expect(heard(electrolyticReversed, bypass('positive to B- negative to V1.cathode'))).toEqual([
      'C1 is the wrong way round: the cathode on its negative end stands above its positive end.',
    ]);
    expect(heard(electrolyticReversed, bypass('positive to V1.cathode negative to B-'))).toEqual(
      [],
    );
  });

  it('is found at the position of a switch that turns the volts', () => {
    const text = edited(
      across('positive to X negative to B-'),
      [
        '  bus NEG\n',
        '  bus NEG\n  bus X\n  selector S2 from X to B+45, V1.filament-, C+ set B+45\n  battery C dry {\n    tap C+\n    tap C-9\n  }\n',
      ],
      ['from X to B+45, V1.filament-, C+', 'from X to B+45, A+, C-9'],
      ['wire B- to A- to GND', 'wire B- to A- to C+ to GND'],
    );
    expect(heard(electrolyticReversed, text)).toEqual([
      'C4 is the wrong way round: its negative end stands 9 V above its positive end, with S2 at C-9.',
    ]);
  });
});

describe('an electrolytic is not accused', () => {
  it('where the text does not say which end is positive', () => {
    expect(heard(electrolyticReversed, across('from B- to B+45'))).toEqual([]);
  });

  it('where nothing ties its ends together', () => {
    const text = edited(electrolyticReversed.passes, [
      'positive to B+45 negative to B-',
      'positive to LOOSE\n  bus LOOSE',
    ]);
    expect(heard(electrolyticReversed, text)).toEqual([]);
  });

  it('for less than half a volt', () => {
    const text = edited(across('positive to NEG negative to V1.filament-'), [
      'rheostat RH1 20 ohms from NEG',
      'rheostat RH1 20 ohms from NEG set .5 ohms',
    ]);
    expect(heard(electrolyticReversed, text)).toEqual([]);
  });
});
