import { describe, expect, it } from 'vitest';
import { seriesStringUneven } from '../../src/checks/series-string-uneven.ts';
import { edited } from '../edited.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(seriesStringUneven, text));

describe('a series string', () => {
  it('over-runs its first filament with the plate currents of the others', () => {
    const text = seriesStringUneven.fails;
    expect(say(text)).toEqual(['series-string-uneven warning @ tube V1 30']);
    expect(heard(seriesStringUneven, text)).toEqual([
      'In the string of V1, V2, V3 and V4 the filament of V1 carries about 66.8 mA, 11 % over the 60 mA of the 30.',
    ]);
    const [found] = findingsOf(seriesStringUneven, text);
    expect(found?.cure).toBe('Put about 295 ohms across the filament of V1.');
    expect(found?.parts).toEqual(['V1']);
  });

  it('is right with shunts across the first filaments', () => {
    expect(heard(seriesStringUneven, seriesStringUneven.passes)).toEqual([]);
  });

  it('is right without B, when no plate draws anything', () => {
    const text = edited(
      seriesStringUneven.fails,
      ['from V1.plate to B+90', 'from V1.plate'],
      ['from V2.plate to B+45', 'from V2.plate'],
      ['from V3.plate to B+90', 'from V3.plate'],
      ['from V4.plate to B+90', 'from V4.plate'],
    );
    expect(heard(seriesStringUneven, text)).toEqual([]);
  });

  it('needs a shunt across a tube that wants less than the others', () => {
    const text = filamentSet(
      'storage 12 V',
      'resistor R1 41 ohms from NEG to V1.filament-',
      'tube V1 99 { filament to V2.filament- }',
      'tube V2 20 { filament to A+ }',
    );
    expect(heard(seriesStringUneven, text)[0]).toMatch(
      /^In the string of V1 and V2 the filament of V1 carries about 0\.10\d A, 6\d % over the 63 mA of the 99/,
    );
    expect(findingsOf(seriesStringUneven, text)[0]?.severity).toBe('error');
    const shunted = edited(
      text,
      ['R1 41 ohms', 'R1 41 ohms'],
      ['  tube V1', '  resistor R2 48 ohms from V1.filament- to V1.filament+\n  tube V1'],
    );
    expect(heard(seriesStringUneven, shunted)).toEqual([]);
  });

  it('whose rheostat is not set is judged by whether it can be set right', () => {
    const text = edited(seriesStringUneven.fails, ['resistor R1 58 ohms', 'rheostat R1 100 ohms']);
    expect(heard(seriesStringUneven, text)).toEqual([]);
  });

  it('that is off as a whole has the wrong voltage, which is told as that', () => {
    const text = filamentSet(
      'storage 12 V',
      'resistor R1 10 ohms from NEG to V1.filament-',
      'tube V1 99 { filament to V2.filament- }',
      'tube V2 99 { filament to A+ }',
    );
    expect(heard(seriesStringUneven, text)).toEqual([]);
  });

  it('is not judged where a type, its plate current or its volts are not known', () => {
    const noType = edited(seriesStringUneven.fails, ['tube V3 30', 'tube V3']);
    const noVolts = edited(
      seriesStringUneven.fails,
      ['tap B+90 90 V', 'tap B+HIGH'],
      ['from V1.plate to B+90', 'from V1.plate to B+HIGH'],
      ['from B+90 to NEG', 'from B+HIGH to NEG'],
      ['from V3.plate to B+90', 'from V3.plate to B+HIGH'],
      ['from V4.plate to B+90', 'from V4.plate to B+HIGH'],
    );
    expect(findingsOf(seriesStringUneven, noType)).toEqual([]);
    expect(findingsOf(seriesStringUneven, noVolts)).toEqual([]);
  });

  it('is no string where tubes stand side by side', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 10 ohms from NEG set .1 ohms',
      'tube V1 01-A { filament from RH1 to A+ }',
      'tube V2 12-A { filament from RH1 to A+ }',
    );
    expect(heard(seriesStringUneven, text)).toEqual([]);
  });
});
