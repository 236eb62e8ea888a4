import { describe, expect, it } from 'vitest';
import { readingOutOfRange as check } from '../../src/checks/reading-out-of-range.ts';
import { benchExample, withBenches } from '../../src/examples/bench-example.ts';
import { checkCircuit } from '../../src/run.ts';
import { saidOf, silent } from '../at-work.ts';
import { circuitOf, findingsOf, told } from '../support.ts';

const METER = 'meter 1000 ohms per volt 2 %';

describe('a reading that is not what is to be expected', () => {
  it('is told at its line, with the band that was expected', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'reading-out-of-range warning @ reading V2.plate 0 V on 250 V',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^V2\.plate: 0 V was read where 8\d\.?\d* V to 9\d\.?\d* V is to be expected\.$/,
    );
    expect(found?.parts).toEqual(['V2']);
  });

  it('may be cold ohms: a primary that is open', () => {
    expect(saidOf(check, benchExample(METER, 'reading T1.primary open lifted'))).toEqual([
      'warning: Ohms of T1.primary lifted: open was read where 560 ohms to 1040 ohms is to be expected.',
    ]);
  });

  it('may be a current that is too much', () => {
    const [line] = saidOf(check, benchExample(METER, 'reading B+135 12 mA'));
    expect(line).toMatch(/^warning: Current in the B\+135 lead: 12 mA was read where/);
  });

  it('may be the wrong way round', () => {
    const [line] = saidOf(check, benchExample(METER, 'reading V3.grid 6 V on 10 V'));
    expect(line).toMatch(/^warning: V3\.grid: 6 V was read where −?-?6\.6/);
  });

  it('is one of every bench by itself', () => {
    const text = withBenches([METER, 'reading V2.plate 0 V'], [METER, 'reading V2.plate 87 V']);
    expect(saidOf(check, text)).toHaveLength(1);
  });

  it('is information just outside the band', () => {
    const [line] = saidOf(check, benchExample(METER, 'reading A+ .65 A'));
    expect(line).toMatch(/^information: Current in the A\+ lead: 0\.65 A was read/);
  });

  it('is information where the bench does not say its meter', () => {
    const [found] = findingsOf(check, benchExample('reading V2.plate 0 V'));
    expect(found?.severity).toBe('information');
    expect(found?.message).toContain('with a meter of 10 megohms');
  });
});

describe('a reading that is as it should be', () => {
  it('lies within the tolerances of the parts', () => {
    expect(silent(check, benchExample(METER, 'reading T1.primary 960 ohms lifted'))).toEqual([]);
  });

  it('is off by no more than the meter’s share of full scale', () => {
    // 5 volts of 250: the plate of V2 stands at 87.7.
    const text = benchExample(METER, 'actual B+90 90 V', 'reading V2.plate 83 V on 250 V');
    expect(silent(check, text)).toEqual([]);
    expect(saidOf(check, text, ['on 250 V', 'on 100 V'])).toHaveLength(1);
  });

  it('is what a meter of few ohms draws the bias down to', () => {
    const text = benchExample(METER, 'reading V3.grid -6 V on 10 V');
    expect(silent(check, text)).toEqual([]);
    expect(saidOf(check, text, ['-6 V', '-9 V'])).toHaveLength(1);
  });

  it('goes by a battery that is a little tired, where nothing was found of it', () => {
    const text = benchExample(METER, 'reading V2.plate 78 V on 250 V');
    expect(silent(check, text)).toEqual([]);
    expect(saidOf(check, text, [METER, `${METER}\n    actual B+90 90 V`])).toHaveLength(1);
  });

  it('was taken with the tubes out', () => {
    const text = benchExample(METER, 'tubes out', 'actual B+90 90 V', 'reading V2.plate 90 V');
    expect(silent(check, text)).toEqual([]);
  });

  it('cannot be told of a tube without data', () => {
    const text = benchExample(METER, 'reading V2.plate 20 V').replaceAll('V2 01-A', 'V2 999');
    expect(findingsOf(check, text)).toEqual([]);
  });

  it('is what a part that was found otherwise makes of it', () => {
    const text = benchExample(METER, 'reading V2.plate 0 V');
    const found = [
      'primary 14 H 800 ohms from V2',
      'primary 14 H 800 ohms found open from V2',
    ] as const;
    expect(silent(check, text, found)).toEqual([]);
  });

  it('is contradicted by another one, which is told first', () => {
    const text = benchExample(METER, 'reading V2.plate 0 V', 'reading V2.plate 40 V');
    const all = checkCircuit(circuitOf(text)).findings.filter(
      ({ severity }) => severity === 'warning',
    );
    expect(all.map(({ check: id }) => id)).toEqual(['readings-contradict']);
  });

  it('is none: a set without a bench', () => {
    expect(silent(check, benchExample(METER))).toEqual([]);
  });
});
