import { describe, expect, it } from 'vitest';
import { filamentOverVoltage } from '../../src/checks/filament-over-voltage.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(filamentOverVoltage, text));
const cures = (text: string): string[] =>
  findingsOf(filamentOverVoltage, text).map(({ cure }) => cure);

describe('a filament that gets too much', () => {
  it('is told with what it gets and what lies before it', () => {
    const text = filamentOverVoltage.fails;
    expect(say(text)).toEqual(['filament-over-voltage warning @ tube V1 01-A']);
    expect(heard(filamentOverVoltage, text)).toEqual([
      'V1 gets 5.71 V on the filament, 14 % over the 5 V of the 01-A, behind the 1 ohm of R2.',
    ]);
    expect(cures(text)).toEqual(['Make R2 4 ohms.']);
    expect(heard(filamentOverVoltage, filamentOverVoltage.passes)).toEqual([]);
  });

  it('is an error more than 20 % over, with the tubes that share the control told together', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 30 ohms from NEG set 10 ohms',
      'tube V1 99 { filament from RH1 to A+ }',
      'tube V2 99 { filament from RH1 to A+ }',
    );
    expect(say(text)).toEqual(['filament-over-voltage error @ tube V1 99']);
    expect(heard(filamentOverVoltage, text)).toEqual([
      'V1 and V2 get 4.34 V on the filament, 32 % over the 3.3 V of the 99, with 10 ohms of RH1 in.',
    ]);
    expect(findingsOf(filamentOverVoltage, text)[0]?.parts).toEqual(['V1', 'V2', 'RH1']);
  });

  it('is cured by setting its rheostat, where that has enough', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG set 1 ohms',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    expect(cures(text)).toEqual(['Set RH1 to 4 ohms.']);
    const after = afterFix(filamentOverVoltage, text);
    expect(after).toContain('from NEG set 4 ohms');
    expect(say(after)).toEqual([
      'filament-over-voltage information @ rheostat RH1 20 ohms from NEG set 4 ohms',
    ]);
  });

  it('wants a larger rheostat where its own has not enough: 60 mA tubes behind 6 ohms', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 6 ohms from NEG',
      'tube V1 99 { filament from RH1 to A+ }',
    );
    expect(heard(filamentOverVoltage, text)).toEqual([
      'V1 gets 5.38 V on the filament, 63 % over the 3.3 V of the 99, even with all of RH1 in.',
    ]);
    expect(cures(text)).toEqual([
      'RH1 has 6 ohms; fit a rheostat of more than 43 ohms in its place.',
    ]);
  });

  it('is told once for all that stand straight across the battery', () => {
    const text = filamentSet(
      'storage 6 V',
      'tube V1 12 { filament from NEG to A+ }',
      'tube V2 12 { filament from NEG to A+ }',
    );
    expect(say(text)).toEqual(['filament-over-voltage error @ tube V1 12']);
    expect(heard(filamentOverVoltage, text)).toEqual([
      'V1 and V2 get 5.95 V on the filament, 440 % over the 1.1 V of the 12, straight across A.',
    ]);
    expect(cures(text)).toEqual(['Put 20 ohms in the filament lead of each.']);
  });

  it('is found behind a ballast that is made for more', () => {
    const text = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .28 A from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(filamentOverVoltage, text)[0]).toBe(
      'V1 gets 5.6 V on the filament, 12 % over the 5 V of the 01-A, behind the ballast K1.',
    );
  });

  it('does not mind which way round the filament lies', () => {
    const text = filamentSet(
      'storage 6 V',
      'resistor R1 1 ohms from NEG to V1.filament+',
      'tube V1 01-A { filament from A+ }',
    );
    expect(say(text)).toEqual(['filament-over-voltage warning @ tube V1 01-A']);
  });
});

describe('a rheostat that gives too much only at the end of its travel', () => {
  it('is told once for a battery, as information, with the limit to keep to', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 10 ohms from NEG set 2 ohms',
      'rheostat RH2 20 ohms from NEG set 4 ohms',
      'tube V1 01-A { filament from RH1 to A+ }',
      'tube V2 01-A { filament from RH1 to A+ }',
      'tube V3 01-A { filament from RH2 to A+ }',
    );
    const findings = findingsOf(filamentOverVoltage, text);
    expect(findings).toHaveLength(1);
    expect(findings[0]?.severity).toBe('information');
    expect(findings[0]?.cure).toBe(
      'On a fresh battery keep 2.9 ohms of RH1 and 5.7 ohms of RH2 in.',
    );
    // Precedence goes by parts: the limit is the rheostats' and must not silence the tubes' faults.
    expect(findings[0]?.parts).toEqual(['RH1', 'RH2']);
  });

  it('is a warning where that end gives more than half as much again: 3.3 V tubes on 6 V', () => {
    const lines = (lead: string) => [
      `rheostat RH1 60 ohms from ${lead} set 45 ohms`,
      'tube V1 99 { filament from RH1 to A+ }',
    ];
    expect(say(filamentSet('storage 6 V', ...lines('NEG')))).toEqual([
      'filament-over-voltage warning @ rheostat RH1 60 ohms from NEG set 45 ohms',
    ]);
    // With a fixed resistor beside it the worst that can happen is less.
    expect(
      say(
        filamentSet(
          'storage 6 V',
          'bus OUT',
          'resistor R1 10 ohms from NEG to OUT',
          'rheostat RH1 60 ohms from OUT set 35 ohms',
          'tube V1 99 { filament from RH1 to A+ }',
        ),
      ),
    ).toEqual(['filament-over-voltage information @ rheostat RH1 60 ohms from OUT set 35 ohms']);
  });
});

describe('no filament is accused', () => {
  it('behind a rheostat that is not set but can be set right', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    expect(findingsOf(filamentOverVoltage, text).map(({ severity }) => severity)).toEqual([
      'information',
    ]);
  });

  it('on a 6.3 V charge behind a fixed resistor of the right size', () => {
    const text = filamentSet(
      'storage 6.3 V',
      'resistor R1 4 ohms from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(filamentOverVoltage, text)).toEqual([]);
  });

  it('behind a ballast that suits', () => {
    const text = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .25 A from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(filamentOverVoltage, text)).toEqual([]);
  });

  it('whose type or whose resistance is not known', () => {
    const unknownType = filamentSet(
      'storage 6 V',
      'resistor R1 1 ohms from NEG to V1.filament-',
      'tube V1 { filament to A+ }',
    );
    const unknownOhms = filamentSet(
      'storage 6 V',
      'resistor R1 from NEG to V1.filament-',
      'tube V1 99 { filament to A+ }',
    );
    expect(findingsOf(filamentOverVoltage, unknownType)).toEqual([]);
    expect(findingsOf(filamentOverVoltage, unknownOhms)).toEqual([]);
  });

  it('for what a cold filament takes in the first moment', () => {
    // Hot, an 01-A is 20 ohms and behind 4 ohms gets its 5 V; cold it would be 2.
    expect(heard(filamentOverVoltage, filamentOverVoltage.passes)).toEqual([]);
  });
});
