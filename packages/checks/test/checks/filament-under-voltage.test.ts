import { describe, expect, it } from 'vitest';
import { filamentUnderVoltage } from '../../src/checks/filament-under-voltage.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(filamentUnderVoltage, text));

describe('a filament that no setting brings to 90 %', () => {
  it('is told with what takes the rest', () => {
    const text = filamentUnderVoltage.fails;
    expect(say(text)).toEqual(['filament-under-voltage warning @ tube V1 01-A']);
    expect(heard(filamentUnderVoltage, text)).toEqual([
      'V1 gets no more than 4 V, 80 % of the 5 V of the 01-A; R2 takes 2 V.',
    ]);
    expect(findingsOf(filamentUnderVoltage, text)[0]?.parts).toEqual(['V1', 'R2']);
    expect(heard(filamentUnderVoltage, filamentUnderVoltage.passes)).toEqual([]);
  });

  it('is found behind a long thin A cable, with the rheostat full on', () => {
    const tubes = ['V1', 'V2', 'V3', 'V4', 'V5'].map(
      (name) => `tube ${name} 01-A { filament from RH1 to A+ }`,
    );
    const cabled = (ohms: string) =>
      filamentSet(
        'storage 6 V',
        'bus SET',
        `wire NEG to SET ${ohms} ohms`,
        'rheostat RH1 6 ohms from SET set .8 ohms',
        ...tubes,
      );
    expect(heard(filamentUnderVoltage, cabled('1.6'))).toEqual([
      'V1, V2, V3, V4 and V5 get no more than 4.27 V with RH1 full on, 85 % of the 5 V of the 01-A; the lead takes 1.71 V.',
    ]);
    expect(findingsOf(filamentUnderVoltage, cabled('1.6'))[0]?.cure).toBe(
      'Use a shorter or thicker lead, of no more than 0.7 ohms.',
    );
    // 0.4 ohm loses half a volt, which the rheostat has to give.
    expect(heard(filamentUnderVoltage, cabled('.4'))).toEqual([]);
  });

  it('is found where the battery has too few cells', () => {
    const text = filamentSet(
      'storage 4 V',
      'rheostat RH1 6 ohms from NEG',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    expect(findingsOf(filamentUnderVoltage, text)[0]?.cure).toBe(
      'Give A more cells, or fit tubes made for its volts.',
    );
  });

  it('is found behind a ballast that is made for less', () => {
    const text = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .06 A from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(filamentUnderVoltage, text)[0]).toContain('K1 takes 4.8 V');
  });
});

describe('no filament is called starved', () => {
  it('where the nominal battery reaches 90 %, though it sags under the load', () => {
    const text = filamentSet(
      'dry 6 V',
      ...['V1', 'V2', 'V3', 'V4', 'V5'].map(
        (name) => `tube ${name} 01-A { filament from NEG to A+ }`,
      ),
    );
    expect(heard(filamentUnderVoltage, text)).toEqual([]);
  });

  it('where a rheostat is set low with room left: spared tubes, or a volume control', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 30 ohms from NEG set 20 ohms',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    expect(heard(filamentUnderVoltage, text)).toEqual([]);
  });

  it('for an actual reading of a run-down battery: that is for the bench', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG',
      'tube V1 01-A { filament from RH1 to A+ }',
      'bench "found" {',
      '  actual A+ 4.2 V',
      '}',
    );
    expect(heard(filamentUnderVoltage, text)).toEqual([]);
  });

  it('whose type or whose resistance is not known', () => {
    const unknownType = filamentSet(
      'storage 6 V',
      'resistor R1 30 ohms from NEG to V1.filament-',
      'tube V1 { filament to A+ }',
    );
    const unknownOhms = filamentSet(
      'storage 6 V',
      'resistor R1 from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(findingsOf(filamentUnderVoltage, unknownType)).toEqual([]);
    expect(findingsOf(filamentUnderVoltage, unknownOhms)).toEqual([]);
  });
});
