import { describe, expect, it } from 'vitest';
import { filamentOpen } from '../../src/checks/filament-open.ts';
import { edited } from '../edited.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(filamentOpen, text));

describe('a filament without a closed path', () => {
  it('names the end that is joined to nothing', () => {
    const text = filamentOpen.fails;
    expect(say(text)).toEqual(['filament-open error @ tube V1 01-A']);
    expect(heard(filamentOpen, text)).toEqual([
      'The filament of V1 has no closed path through a battery: RH1.start is joined to nothing.',
    ]);
    const [found] = findingsOf(filamentOpen, text);
    expect(found?.cure).toBe(
      'Join RH1.start to A-, through the battery switch where there is one.',
    );
    expect(found?.parts).toEqual(['V1', 'RH1']);
    expect(heard(filamentOpen, filamentOpen.passes)).toEqual([]);
  });

  it('is told once for all tubes behind one loose lead', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 10 ohms to V1.filament-',
      'tube V1 01-A { filament to A+ }',
      'tube V2 01-A { filament from V1.filament- to A+ }',
    );
    expect(heard(filamentOpen, text)).toEqual([
      'The filaments of V1 and V2 have no closed path through a battery: RH1.start is joined to nothing.',
    ]);
  });

  it('is told once for a whole string, at the place where it is open', () => {
    const text = filamentSet(
      'storage 12 V',
      'tube V1 99 { filament from NEG to V2.filament- }',
      'tube V2 99',
      'tube V3 99 { filament from V2.filament+ }',
    );
    expect(heard(filamentOpen, text)).toEqual([
      'The filaments of V1, V2 and V3 have no closed path through a battery: V3.filament+ is joined to nothing.',
    ]);
    expect(findingsOf(filamentOpen, text)[0]?.cure).toContain('Join V3.filament+ to');
  });

  it('is found where both its ends lead to one side of the battery', () => {
    const text = filamentSet(
      'storage 6 V',
      'potentiometer P1 400 ohms from NEG to A+',
      'rheostat RH1 10 ohms from NEG',
      'tube V1 01-A { filament from RH1 to NEG }',
    );
    expect(heard(filamentOpen, text)).toEqual([
      'Both ends of the filament of V1 lead to A-: nothing drives current through it.',
    ]);
    expect(findingsOf(filamentOpen, text)[0]?.cure).toBe('Lead one end to A+.');
  });

  it('is found where its ends lead to two batteries that nothing ties together', () => {
    const text = filamentSet(
      'storage 6 V',
      'battery A2 storage {',
      '  tap D- 0 V',
      '  tap D+ 6 V',
      '}',
      'tube V1 01-A { filament from NEG to D+ }',
    );
    expect(heard(filamentOpen, text)).toEqual([
      'The filament of V1 lies between A- and D+, which no battery ties together.',
    ]);
  });

  it('says so where nothing is wired to it at all', () => {
    const text = filamentSet('storage 6 V', 'tube V1 01-A { filament from NEG }');
    expect(heard(filamentOpen, text)[0]).toContain('V1.filament+ is joined to nothing');
  });
});

describe('a dark filament is no fault', () => {
  it('in a set that is drawn switched off', () => {
    const text = edited(filamentOpen.passes, ['from A- to NEG closed', 'from A- to NEG open']);
    expect(heard(filamentOpen, text)).toEqual([]);
  });

  it('behind a filament-control jack with the plug out', () => {
    const text = filamentSet(
      'storage 6 V',
      'bus OUT',
      'jack J1 makes NEG to OUT',
      'resistor R1 4 ohms from OUT to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(filamentOpen, text)).toEqual([]);
  });

  it('behind a rheostat at its off stop', () => {
    const text = filamentSet(
      'storage 6 V',
      'rheostat RH1 20 ohms from NEG set off',
      'tube V1 01-A { filament from RH1 to A+ }',
    );
    expect(heard(filamentOpen, text)).toEqual([]);
  });

  it('is information where a selector lights it at another stud', () => {
    const text = filamentSet(
      'storage 6 V',
      'bus ONE',
      'bus TWO',
      'selector S2 from NEG to ONE, TWO set ONE',
      'resistor R1 4 ohms from TWO to V1.filament-',
      'resistor R2 4 ohms from ONE to V2.filament-',
      'tube V1 01-A { filament to A+ }',
      'tube V2 01-A { filament to A+ }',
    );
    expect(say(text)).toEqual(['filament-open information @ tube V1 01-A']);
    expect(heard(filamentOpen, text)).toEqual([
      'V1 is out as drawn: another position of S2 lights it.',
    ]);
  });

  it('is one line of information where the heaters run on a supply that is not in the text', () => {
    const text = [
      'receiver "Lantern Cove Heaters" {',
      '  eliminator B {',
      '    tap B-',
      '    tap B+90 90 V',
      '  }',
      '  bus H1',
      '  bus H2',
      '  tube V1 27 {',
      '    heater from H1 to H2',
      '    cathode to B-',
      '  }',
      '  tube V2 27 {',
      '    heater from H1 to H2',
      '    cathode to B-',
      '  }',
      '}',
    ].join('\n');
    expect(say(text)).toEqual(['filament-open information @ tube V1 27']);
    expect(heard(filamentOpen, text)).toEqual([
      'Nothing in the text lights V1 and V2: no supply for the heaters is named.',
    ]);
  });

  it('with both ends on one junction, which is a shorted part', () => {
    const text = filamentSet('storage 6 V', 'tube V1 01-A { filament from NEG to NEG }');
    expect(findingsOf(filamentOpen, text)).toEqual([]);
  });

  it('on a battery that is itself shorted', () => {
    const text = filamentSet(
      'storage 6 V',
      'wire A+ to NEG',
      'resistor R1 4 ohms from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    expect(findingsOf(filamentOpen, text)).toEqual([]);
  });
});
