import { describe, expect, it } from 'vitest';
import { plateStarved as check } from '../../src/checks/plate-starved.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

describe('a plate resistor that takes nearly all', () => {
  it('is told at the resistor, with the leak it is exchanged with', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'plate-starved information @ resistor R2 2 meg from V2.plate to B+90',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^R2 of 2 megohms leaves the plate of V2 \d\.?\d? V of the 90 V of B\+90: 9\d % are lost, and the stage gives about [23]\.?\d? of the 8 that the tube could\.$/,
    );
    expect(found?.cure).toContain('R2 and R3 are exchanged');
    expect(found?.parts).toEqual(['R2', 'V2', 'R3']);
  });

  it('is told of a tube of high amplification too, which its bias keeps from falling far', () => {
    const text = check.fails
      .replace('tube V2 01-A', 'tube V2 40')
      .replace('tap B+90 90 V', 'tap B+90 135 V')
      .replace(
        'resistor F2 4 ohms from A+ to V2.filament+',
        'resistor F2 4 ohms from A- to V2.filament-',
      )
      .replace('tube V2 40 {\n      filament from A-', 'tube V2 40 {\n      filament to A+');
    expect(saidOf(check, text)[0]).toMatch(
      /^information: R2 of 2 megohms leaves the plate of V2 3\d/,
    );
  });

  it('asks for a lower one where the leak is no lower', () => {
    const text = check.fails.replace('R2 2 meg', 'R2 10 meg').replace('R3 .1 meg', 'R3 10 meg');
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Use a lower plate resistor for V2, about 30 kilohms.',
    );
  });
});

describe('a plate that has enough', () => {
  it('is one behind a resistor of usual size', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('gives half of what its type can, however many volts are lost', () => {
    const less = ['R2 2 meg', 'R2 1 meg'] as const;
    expect(saidOf(check, check.fails, less, ['R3 .1 meg', 'R3 .05 meg'])).toHaveLength(1);
    expect(silent(check, check.fails, less, ['R3 .1 meg', 'R3 5 meg'])).toEqual([]);
  });

  it('is a detector with a grid condenser', () => {
    const text = check.fails
      .replace('from V1.plate to B+45', 'from V1.plate')
      .replace(
        '    tube V2 01-A {',
        '    resistor R8 2 meg from T1.primary.finish to B+45\n    tube V2 01-A {',
      );
    expect(saidOf(check, text).some((said) => said.includes('R8'))).toBe(false);
  });

  it('is a tube of high amplification with the resistor it is made for', () => {
    const text = check.fails
      .replace('R2 2 meg', 'R2 .25 meg')
      .replace('R3 .1 meg', 'R3 .05 meg')
      .replace('tube V2 01-A', 'tube V2 40');
    expect(silent(check, text)).toEqual([]);
  });

  it('stands behind a resistor of unknown size, or has no published points', () => {
    expect(silent(check, check.fails, ['R2 2 meg', 'R2'])).toEqual([]);
    const own = '\ntube type 01-A {\n  filament 5 V .25 A\n  amplification 8\n}\n';
    expect(silent(check, check.fails + own).filter((said) => said.startsWith('R2'))).toEqual([]);
  });
});
