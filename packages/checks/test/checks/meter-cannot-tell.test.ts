import { describe, expect, it } from 'vitest';
import { meterCannotTell as check } from '../../src/checks/meter-cannot-tell.ts';
import { benchExample } from '../../src/examples/bench-example.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

const METER = 'meter 1000 ohms per volt 2 %';

describe('a reading that could not tell', () => {
  it('is a drop of a volt on the scale of 250', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'meter-cannot-tell hint @ reading T2.primary 2 V on 250 V',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(/1\.\d+ V is to be read on a scale of 250 V, .* off by 5 V\.$/);
    expect(found?.cure).toMatch(/^Read it again on the scale of 2\.5 V/);
  });

  it('is a current far down on its scale', () => {
    const [line] = saidOf(check, benchExample(METER, 'reading B+45 5 mA on 250 mA'));
    expect(line).toMatch(/^hint: Current in the B\+45 lead: 1\.\d+ mA is to be read on a scale of/);
  });

  it('is a grid behind its leak, which the meter draws down to nothing', () => {
    const [found] = findingsOf(check, benchExample(METER, 'reading V1.grid 0 V on 10 V'));
    expect(found?.message).toMatch(/^V1\.grid: the meter draws down the 0\.2\d+ V that are there/);
    expect(found?.cure).toContain('plate current');
  });
});

describe('a reading that tells', () => {
  it('is taken on the scale that fits', () => {
    expect(silent(check, check.passes)).toEqual([]);
    expect(silent(check, benchExample(METER, 'reading V2.plate 87 V on 250 V'))).toEqual([]);
  });

  it('was taken with a meter of figures', () => {
    const text = check.fails.replace(METER, 'meter 10 megohms 1 %');
    expect(silent(check, text)).toEqual([]);
  });

  it('was taken with a meter of which nothing is said', () => {
    expect(silent(check, check.fails, [`    ${METER}\n`, ''])).toEqual([]);
  });

  it('is a point where nothing is to be expected', () => {
    const text = benchExample(METER, 'reading V1.filament- 0 V on 250 V');
    expect(silent(check, text)).toEqual([]);
  });

  it('is one of ohms', () => {
    expect(silent(check, benchExample(METER, 'reading T2.primary 800 ohms lifted'))).toEqual([]);
  });

  it('cannot be told beforehand', () => {
    expect(findingsOf(check, check.fails.replace('V2 01-A', 'V2 999'))).toEqual([]);
  });
});
