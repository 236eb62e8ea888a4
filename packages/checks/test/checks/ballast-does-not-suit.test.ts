import { describe, expect, it } from 'vitest';
import { ballastDoesNotSuit } from '../../src/checks/ballast-does-not-suit.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(ballastDoesNotSuit, text));

describe('a ballast for another current', () => {
  it('is told with the current its tube draws', () => {
    const text = ballastDoesNotSuit.fails;
    expect(say(text)).toEqual([
      'ballast-does-not-suit warning @ ballast K1 5 V .06 A from NEG to V1.filament-',
    ]);
    expect(heard(ballastDoesNotSuit, text)).toEqual(['K1 is made for 60 mA, but V1 draws 0.25 A.']);
    expect(findingsOf(ballastDoesNotSuit, text)[0]?.parts).toEqual(['K1', 'V1']);
  });

  it('is cured by one that suits', () => {
    const after = afterFix(ballastDoesNotSuit, ballastDoesNotSuit.fails);
    expect(after).toContain('ballast K1 5 V 0.25 A from NEG');
    expect(heard(ballastDoesNotSuit, after)).toEqual([]);
    expect(heard(ballastDoesNotSuit, ballastDoesNotSuit.passes)).toEqual([]);
  });

  it('is compared with all tubes that it feeds together', () => {
    const text = (amperes: string) =>
      filamentSet(
        'storage 6 V',
        `ballast K1 5 V ${amperes} A from A+ to V1.filament+`,
        'tube V1 01-A { filament from NEG }',
        'tube V2 01-A { filament from NEG to V1.filament+ }',
      );
    expect(heard(ballastDoesNotSuit, text('.25'))).toEqual([
      'K1 is made for 0.25 A, but V1 and V2 draw 0.5 A.',
    ]);
    expect(heard(ballastDoesNotSuit, text('.5'))).toEqual([]);
  });
});

describe('a ballast suits', () => {
  it('within a tenth: a 60 mA cartridge and a 63 mA tube', () => {
    const text = filamentSet(
      'dry 4.5 V',
      'ballast K1 3 V .06 A from NEG to V1.filament-',
      'tube V1 99 { filament to A+ }',
    );
    expect(heard(ballastDoesNotSuit, text)).toEqual([]);
  });

  it('where a rheostat beside it takes part of the current', () => {
    const text = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .2 A from NEG to V1.filament-',
      'rheostat RH1 30 ohms across K1',
      'tube V1 01-A { filament to A+ }',
    );
    expect(heard(ballastDoesNotSuit, text)).toEqual([]);
  });

  it('where its own current or a tube is not stated', () => {
    const bare = filamentSet(
      'storage 6 V',
      'ballast K1 from NEG to V1.filament-',
      'tube V1 01-A { filament to A+ }',
    );
    const unknown = filamentSet(
      'storage 6 V',
      'ballast K1 5 V .06 A from NEG to V1.filament-',
      'tube V1 { filament to A+ }',
    );
    expect(findingsOf(ballastDoesNotSuit, bare)).toEqual([]);
    expect(findingsOf(ballastDoesNotSuit, unknown)).toEqual([]);
  });
});
