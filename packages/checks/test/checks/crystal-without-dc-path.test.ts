import { describe, expect, it } from 'vitest';
import { crystalWithoutDcPath as check } from '../../src/checks/crystal-without-dc-path.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const across = 'choke CH1 1000 ohms across C2';
const withAcross = (line: string): string => edited(sound, [across, line]);

describe('a crystal’s current cannot go round', () => {
  it('behind a condenser, which is named', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual([
      'crystal-without-dc-path error @ crystal CR1 from L1.secondary.finish to DET1',
    ]);
    expect(findings[0]?.message).toBe(
      'The direct current of CR1 cannot go round: C2 blocks direct current.',
    );
    expect(findings[0]?.cure).toBe('Put phones, a choke or a leak of 50 kilohms across C2.');
    expect(findings[0]?.parts).toEqual(['CR1']);
  });

  it('where the coil’s return is missing: the tuning condenser does not count', () => {
    const text = edited(
      sound,
      ['winding secondary 200 uH from GND', 'winding secondary 200 uH'],
      ['rotor to L1.secondary.start', 'rotor to GND'],
    );
    expect(heard(check, text)).toEqual([
      'The direct current of CR1 cannot go round: C1 blocks direct current.',
    ]);
  });

  it('as drawn, with the switch open: information', () => {
    const text = withAcross('selector S1 from DET1 to BLANK, OUT set 1\n    bus BLANK');
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: it goes round with S1 at OUT.');
  });
});

describe('a crystal’s current goes round', () => {
  it('by a leak across the stopping condenser', () => {
    expect(heard(check, withAcross('leak R1 .5 meg across C2'))).toEqual([]);
  });

  it('by phones, a choke, a transformer or a bias cell', () => {
    for (const part of [
      'phones PH2 2000 ohms across C2',
      'choke CH1 30 H across C2',
      'transformer T1 {\n      winding primary 800 ohms from DET1 to GND\n    }',
      'battery CELL dry {\n      tap K- 0 V\n      tap K+ 1.5 V\n    }\n    wire K+ to DET1\n    wire K- to GND',
    ])
      expect(heard(check, withAcross(part))).toEqual([]);
  });

  it('by phones that are not drawn, between their posts', () => {
    const text = edited(sound, [
      'phones PH1 2000 ohms from OUT to GND',
      'post TEL1 phones\n    post TEL2 phones\n    wire TEL1 to OUT\n    wire TEL2 to GND',
    ]);
    expect(heard(check, text)).toEqual([]);
  });

  it('by another crystal that conducts the other half', () => {
    expect(heard(check, withAcross('crystal CR2 from GND to DET1'))).toEqual([]);
  });

  it('or the crystal is not wired yet, which is another fault', () => {
    expect(
      heard(check, edited(check.fails, ['from L1.secondary.finish to DET1', 'to DET1'])),
    ).toEqual([]);
  });
});
