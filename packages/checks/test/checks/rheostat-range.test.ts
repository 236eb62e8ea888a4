import { describe, expect, it } from 'vitest';
import { rheostatRange } from '../../src/checks/rheostat-range.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(rheostatRange, text));
const behindOne = (battery: string, rheostat: string, ...types: readonly string[]): string =>
  filamentSet(
    battery,
    `rheostat RH1 ${rheostat} from NEG`,
    ...types.map((type, index) => `tube V${index + 1} ${type} { filament from RH1 to A+ }`),
  );

describe('a rheostat of the wrong size', () => {
  it('is too coarse where only a sliver of its travel is right', () => {
    const text = rheostatRange.fails;
    expect(say(text)).toEqual(['rheostat-range warning @ rheostat RH1 200 ohms from NEG']);
    expect(heard(rheostatRange, text)).toEqual([
      'RH1 has 200 ohms, of which only 14.8 ohms to 21.9 ohms is right for V1: 3.5 % of its travel.',
    ]);
    expect(heard(rheostatRange, rheostatRange.passes)).toEqual([]);
  });

  it('is too coarse with 30 ohms before five 01-A', () => {
    const text = behindOne('storage 6 V', '30 ohms', '01-A', '01-A', '01-A', '01-A', '01-A');
    expect(heard(rheostatRange, text)[0]).toMatch(
      /^RH1 has 30 ohms, of which only 0\.5\d+ ohms to 1\.0\d* ohms is right for V1, V2, V3, V4 and V5: 1\.6 %/,
    );
  });

  it('is too small with 6 ohms before a 60 mA tube on 6 V', () => {
    const text = behindOne('storage 6 V', '6 ohms', '99');
    expect(heard(rheostatRange, text)).toEqual([
      'RH1 has 6 ohms, too few for V1, which wants 43 ohms in the lead.',
    ]);
    expect(findingsOf(rheostatRange, text)[0]?.cure).toBe(
      'Fit a rheostat of more than 43 ohms in place of RH1.',
    );
  });

  it('suits nobody where its tubes want different volts', () => {
    const text = behindOne('storage 6 V', '20 ohms', '01-A', '12');
    expect(heard(rheostatRange, text)[0]).toMatch(/^No setting of RH1 suits both V1 and V2/);
    expect(findingsOf(rheostatRange, text)[0]?.cure).toBe('Give V2 a rheostat of its own.');
  });
});

describe('a rheostat suits', () => {
  it('where a good part of its travel is right', () => {
    expect(heard(rheostatRange, behindOne('storage 6 V', '20 ohms', '01-A'))).toEqual([]);
    expect(heard(rheostatRange, behindOne('storage 6 V', '6 ohms', '01-A', '01-A'))).toEqual([]);
  });

  it('as a vernier beside a ballast, or a second one in the same lead', () => {
    const vernier = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .25 A from NEG to V1.filament-',
      'rheostat RH1 200 ohms across K1',
      'tube V1 01-A { filament to A+ }',
    );
    const master = filamentSet(
      'storage 6 V',
      'bus MID',
      'rheostat RH1 30 ohms from NEG to MID set 1 ohms',
      'rheostat RH2 60 ohms from MID set 3 ohms',
      'tube V1 01-A { filament from RH2 to A+ }',
    );
    expect(heard(rheostatRange, vernier)).toEqual([]);
    expect(heard(rheostatRange, master)).toEqual([]);
  });

  it('as the volume control, set low, as long as it has a good setting', () => {
    expect(heard(rheostatRange, behindOne('storage 6 V', '30 ohms set 25 ohms', '01-A'))).toEqual(
      [],
    );
  });

  it('where even full on it gives too little: the battery is at fault', () => {
    expect(heard(rheostatRange, behindOne('storage 4 V', '30 ohms', '01-A'))).toEqual([]);
  });
});
