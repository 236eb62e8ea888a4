import { describe, expect, it } from 'vitest';
import { vanesAcrossSupply } from '../../src/checks/vanes-across-supply.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(vanesAcrossSupply, text));
const throttle = 'rotor to NEG';

describe('plates that would short the B battery if they touched', () => {
  it('are those of a throttle condenser from the plate circuit to the filament', () => {
    const text = vanesAcrossSupply.fails;
    expect(say(text)).toEqual([
      'vanes-across-supply information @ condenser C3 "throttle" variable 20 to 250 mmfd stator to H1.start rotor to NEG',
    ]);
    expect(heard(vanesAcrossSupply, text)).toEqual([
      'Should the plates of C3 touch, the 45 V of B+45 are shorted through no more than 2000 ohms.',
    ]);
    expect(findingsOf(vanesAcrossSupply, text)[0]?.parts).toEqual(['C3']);
  });

  it('are those straight across a tap', () => {
    const text = edited(vanesAcrossSupply.fails, ['stator to H1.start', 'stator to B+45']);
    expect(heard(vanesAcrossSupply, text)[0]).toContain('are shorted with nothing in series');
  });

  it('are those that would put a tap on a grid', () => {
    const text = edited(
      vanesAcrossSupply.fails,
      ['stator to H1.start rotor to NEG', 'stator to V1.plate rotor to V1.grid'],
      [
        'tickler 15 turns of 24 DCC beside grid spaced 1/8 in from V1.plate to H1.start',
        'tickler 15 turns of 24 DCC beside grid spaced 1/8 in from V1.plate to B+45',
      ],
    );
    expect(heard(vanesAcrossSupply, text)[0]).toMatch(
      /^Should the plates of C3 touch, B\+45 is on the grid of V1: /,
    );
  });
});

describe('plates may touch', () => {
  it('behind a fixed condenser in series', () => {
    expect(heard(vanesAcrossSupply, vanesAcrossSupply.passes)).toEqual([]);
  });

  it('behind at least 10 kilohms', () => {
    const text = edited(vanesAcrossSupply.fails, ['2000 ohms to B+45', '12 kilohms to B+45']);
    expect(heard(vanesAcrossSupply, text)).toEqual([]);
  });

  it('in a trimming or neutralizing condenser, where mica or glass keeps them apart', () => {
    for (const kind of ['trimmer', 'neutralizing']) {
      const text = edited(vanesAcrossSupply.fails, [
        `C3 "throttle" variable 20 to 250 mmfd stator to H1.start ${throttle}`,
        `C3 ${kind} 2 to 25 mmfd from H1.start to NEG`,
      ]);
      expect(heard(vanesAcrossSupply, text)).toEqual([]);
    }
  });

  it('in a tuning condenser across a grid coil', () => {
    const text = edited(vanesAcrossSupply.fails, [
      `    condenser C3 "throttle" variable 20 to 250 mmfd stator to H1.start ${throttle}\n`,
      '',
    ]);
    expect(heard(vanesAcrossSupply, text)).toEqual([]);
  });
});
