import { describe, expect, it } from 'vitest';
import { detectorOnAmplifierTap } from '../../src/checks/detector-on-amplifier-tap.ts';
import { findingsOf, told } from '../support.ts';

const { fails, passes } = detectorOnAmplifierTap;
const say = (text: string): string[] => told(text, findingsOf(detectorOnAmplifierTap, text));
const messages = (text: string): string[] =>
  findingsOf(detectorOnAmplifierTap, text).map(({ message }) => message);

describe('the detector is on the amplifier tap', () => {
  it('when it has 45 V and the amplifier 22', () => {
    expect(say(fails)).toEqual(['detector-on-amplifier-tap warning @ B+45']);
    expect(messages(fails)).toEqual([
      'The detector V1 is on B+45 (45 V) and the amplifier V2 on B+22 (22.5 V).',
    ]);
    expect(findingsOf(detectorOnAmplifierTap, fails)[0]?.parts).toEqual(['V1', 'V2']);
    expect(say(passes)).toEqual([]);
  });

  it('until the fix has exchanged the two leads', () => {
    const edits = [...(findingsOf(detectorOnAmplifierTap, fails)[0]?.fixes[0]?.edits ?? [])];
    const cured = edits
      .sort((a, b) => b.place.start - a.place.start)
      .reduce(
        (text, { place, text: put }) => text.slice(0, place.start) + put + text.slice(place.end),
        fails,
      );
    expect(cured).toBe(passes);
  });

  it('when an amplifier has the tap that is named for it, whatever the volts', () => {
    const text = fails
      .replaceAll('B+22 22.5 V', 'B+DET')
      .replaceAll('B+22', 'B+DET')
      .replaceAll('B+45', 'B+AMP');
    expect(messages(text)).toEqual([
      'B+DET, named for the detector, feeds V2, and the detector V1 is on B+AMP.',
    ]);
    expect(
      say(
        passes
          .replaceAll('B+22 22.5 V', 'B+DET')
          .replaceAll('B+22', 'B+DET')
          .replaceAll('B+45', 'B+AMP'),
      ),
    ).toEqual([]);
  });
});

it('is told of a set that is traced without stages as well', () => {
  const text = `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
    tap B+90
  }
  wire B- to A-
  coil L1 {
    winding grid from A-
  }
  condenser C2 from L1.grid.finish to V1.grid
  leak R1 from V1.grid to A+
  tube V1 01-A {
    filament from A- to A+
  }
  transformer T1 {
    winding primary from V1.plate
    winding secondary from A- to V2.grid
  }
  tube V2 01-A {
    filament from A- to A+
    plate to PH1
  }
  phones PH1 to B+45
  wire T1.B to B+90
}
`;
  expect(messages(text)).toEqual([
    'The detector V1 is on B+90 (90 V) and the amplifier V2 on B+45 (45 V).',
  ]);
  expect(say(text)).toEqual(['detector-on-amplifier-tap warning @ wire T1.B to B+90']);
});

describe('the detector is where it belongs', () => {
  it('on the higher tap when it works by its bias', () => {
    const text = fails
      .replace('condenser C2 .00025 mfd from L1.grid.finish to V1.grid', '')
      .replace('leak R1 2 meg from V1.grid to A+', 'wire L1.grid.finish to V1.grid');
    expect(say(text)).toEqual([]);
  });

  it('in a set of one tap', () => {
    expect(say(fails.replaceAll('to B+22', 'to B+45'))).toEqual([]);
  });

  it('behind a plate resistor', () => {
    const text = fails
      .replace('from V1.plate to B+45', 'from V1.plate to R9')
      .replace('audio stage', 'resistor R9 100 kilohms to B+45\n  audio stage');
    expect(text).toContain('R9 100');
    expect(say(text)).toEqual([]);
  });

  it('in a regenerative set with phones alone', () => {
    const text = (more: string, plate: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
    tap B+90
  }
  wire B- to A-
  radio stage RF {
    tube V1 01-A {
      filament from A- to A+
      plate to L2.plate.start
    }
  }
  detector stage DET {
    coil L2 {
      winding plate 1 ohms to B+45
      winding grid 4 ohms from A-
      ${more}
    }
    condenser C2 .00025 mfd from L2.grid.finish to V2.grid
    leak R1 2 meg from V2.grid to A+
    tube V2 01-A {
      filament from A- to A+
    }
    phones PH1 2000 ohms from ${plate} to B+90
    bus TIC
  }
}
`;
    expect(say(text('winding tickler 2 ohms from V2.plate to TIC', 'TIC'))).toEqual([]);
    expect(say(text('', 'V2.plate'))).toHaveLength(1);
  });

  it('as far as anyone can tell, when the volts of the taps are not known', () => {
    expect(
      say(
        fails.replaceAll('B+22 22.5 V', 'B+X').replaceAll('B+22', 'B+X').replaceAll('B+45', 'B+Y'),
      ),
    ).toEqual([]);
  });
});
