import { describe, expect, it } from 'vitest';
import { plateWithoutSupply as check } from '../../src/checks/plate-without-supply.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const primary = 'winding primary 800 ohms from V1.plate to B+45';
const phones = 'phones PH1 2000 ohms from V2.plate to B+90';

describe('a plate without supply', () => {
  it('for want of the lead to its tap: the tap that suits the detector is named', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual(['plate-without-supply error @ tube V1 01-A']);
    expect(findings[0]?.message).toBe(
      'The plate of V1 has no supply: nothing leads on from T1.primary.finish.',
    );
    expect(findings[0]?.cure).toBe('Join T1.primary.finish to B+45.');
    expect(findings[0]?.parts).toEqual(['V1']);
    const mended = afterFix(check, check.fails);
    expect(mended).toBe(sound);
    expect(heard(check, mended)).toEqual([]);
  });

  it('behind a condenser, which is named', () => {
    const text = edited(sound, [
      primary,
      'winding primary 800 ohms from V1.plate\n    }\n    condenser C9 1 mfd from T1.primary.finish to B+45\n    coil L9 {',
    ]);
    const edge = edited(text, [
      'winding secondary 5000 ohms',
      'winding only 20 uH\n    }\n    transformer T9 {\n      winding secondary 5000 ohms',
    ]);
    expect(findingsOf(check, edge)[0]?.message).toBe(
      'The plate of V1 has no supply: C9 blocks direct current and nothing else leads from it to a positive tap.',
    );
  });

  it('led to the filament side instead', () => {
    expect(
      heard(check, edited(sound, [phones, 'phones PH1 2000 ohms from V2.plate to A-'])),
    ).toEqual([
      'The plate of V2 has no supply: it leads to A-, from where nothing leads to a positive tap.',
    ]);
  });

  it('led to the C battery', () => {
    expect(
      heard(check, edited(sound, [phones, 'phones PH1 2000 ohms from V2.plate to C-4.5'])),
    ).toEqual([
      'The plate of V2 has no supply: it leads to C-4.5, from where nothing leads to a positive tap.',
    ]);
  });

  it('even where a bleeder ties the B battery’s taps to the filament side', () => {
    const text = edited(sound, [
      phones,
      'phones PH1 2000 ohms from V2.plate to A-\n    resistor R9 50 kilohms from B+90 to A-',
    ]);
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['error']);
  });

  it('but for the filament battery: a warning', () => {
    const [found] = findingsOf(
      check,
      edited(sound, [phones, 'phones PH1 2000 ohms from V2.plate to A+']),
    );
    expect(found?.severity).toBe('warning');
    expect(found?.message).toBe(
      'The plate of V2 gets no more than the filament battery gives: no B tap reaches it.',
    );
  });

  it('as drawn, where another position of the switch gives it one: information', () => {
    const text = edited(sound, [
      phones,
      'phones PH1 2000 ohms from V2.plate\n    selector S1 from PH1.finish to OFF, B+90 set 1\n    bus OFF',
    ]);
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: it has its supply with S1 at B+90.');
  });
});

describe('a plate has its supply', () => {
  it('through a lamp, phones, a tuned circuit, a resistance or a jack', () => {
    for (const feed of [
      'lamp LA1 40 ohms from V2.plate to B+90',
      'coil L9 {\n      winding plate 240 uH from V2.plate to B+90\n    }',
      'resistor R9 100 kilohms from V2.plate to B+90',
      'jack J1 from V2.plate to B+90\n    phones PH1 2000 ohms into J1',
      'fuse FU1 .1 A from V2.plate to B+90',
    ])
      expect(heard(check, edited(sound, [phones, feed]))).toEqual([]);
  });

  it('through a loudspeaker that is not drawn, between its posts', () => {
    const posts =
      '    post LS1 speaker\n    post LS2 speaker\n    wire LS1 to V2.plate\n    wire LS2 to B+90';
    expect(heard(check, edited(sound, [`    ${phones}`, posts]))).toEqual([]);
  });

  it('through a small cell that holds a meter back', () => {
    const cell =
      'battery BUCK dry {\n      tap M- 0 V\n      tap M+ 1.5 V\n    }\n    wire M- to B+90\n    phones PH1 2000 ohms from V2.plate to M+';
    expect(heard(check, edited(sound, [phones, cell]))).toEqual([]);
  });

  it('from two blocks in a row', () => {
    const text = edited(
      sound,
      [
        '  battery C dry',
        '  battery B2 dry {\n    tap P- 0 V\n    tap P+ 45 V\n  }\n  wire P- to B+90\n  battery C dry',
      ],
      ['from V2.plate to B+90', 'from V2.plate to P+'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('or needs none: grid and plate strapped make a diode', () => {
    const text = edited(sound, [phones, 'wire V2.plate to V2.grid']);
    expect(heard(check, text)).toEqual([]);
  });

  it('or works on the filament battery, where its type is made for that', () => {
    const text = edited(
      sound,
      [phones, 'phones PH1 2000 ohms from V2.plate to A+'],
      ['tube V2 01-A', 'tube V2 LOW'],
    );
    const type =
      '\ntube type LOW "low-voltage triode" {\n  filament 5 V 0.25 A\n  point plate 6 V grid 0 V current .5 mA\n}\n';
    expect(heard(check, text + type)).toEqual([]);
    expect(heard(check, text + type.replace('plate 6 V', 'plate 45 V'))).toHaveLength(1);
  });

  it('or is not known to want one: an unknown type may be a rectifier', () => {
    const text = edited(check.fails, ['tube V1 01-A', 'tube V1 9999']);
    expect(findingsOf(check, text)).toEqual([]);
  });

  it('or nothing is known of it: no B battery is written down', () => {
    const text = edited(
      sound,
      [
        '  battery B dry {\n    tap B-\n    tap B+45 45 V\n    tap B+90 90 V\n  }\n',
        '  post B+45\n  post B+90\n',
      ],
      ['wire B- to A-', 'wire A-'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('or nothing at all is wired to it, which is another fault', () => {
    expect(heard(check, edited(sound, [`    ${phones}\n`, '']))).toEqual([]);
  });
});
