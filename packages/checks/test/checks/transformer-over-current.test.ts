import { describe, expect, it } from 'vitest';
import { biasOutOfStep } from '../../src/checks/bias-out-of-step.ts';
import { transformerOverCurrent as check } from '../../src/checks/transformer-over-current.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

const power = biasOutOfStep.passes.replace('tap C-27 -27 V', 'tap C-27 -22.5 V');

describe('a winding, horn or phones with too much direct current', () => {
  it('is told against the rating that is stated', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'transformer-over-current warning @ winding primary 14 H 800 ohms 1 mA from V2.plate to B+90',
    ]);
    expect(saidOf(check, check.fails)).toEqual([
      'warning: T2.primary carries about 2.3 mA of direct current of V2, and is rated for 1 mA.',
    ]);
    expect(findingsOf(check, check.fails)[0]?.parts).toEqual(['T2.primary']);
  });

  it('is a horn with a rating', () => {
    expect(saidOf(check, check.passes, ['H1 2000 ohms', 'H1 2000 ohms 2 mA'])[0]).toMatch(
      /^warning: H1 carries about \d\.?\d? mA of direct current of V3, and is rated for 2 mA\.$/,
    );
  });

  it('is a hint above 10 mA where no rating is stated: a power tube straight into a horn', () => {
    expect(saidOf(check, power)[0]).toMatch(
      /^hint: H1 carries about 1\d mA of direct current of V3, more than a horn or phones of the time as a rule bear\.$/,
    );
    expect(findingsOf(check, power)[0]?.cure).toContain('choke and a condenser');
  });

  it('is information within a tenth of its rating', () => {
    expect(saidOf(check, check.fails, ['1 mA', '2.25 mA'])[0]).toMatch(
      /^information: T2\.primary may carry about/,
    );
  });
});

describe('what bears its direct current', () => {
  it('is within its rating', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is an output transformer or an output choke with no rating', () => {
    const horn = 'horn H1 2000 ohms from V3.plate to B+135';
    const transformer =
      'transformer T3 ratio 1 to 1 {\n      winding primary 500 ohms from V3.plate to B+135\n      winding secondary 500 ohms from A- to H1.start\n    }\n    horn H1 2000 ohms to A-';
    expect(silent(check, power, [horn, transformer])).toEqual([]);
    const choke =
      'choke CH1 30 H 400 ohms from V3.plate to B+135\n    condenser C9 2 mfd from V3.plate to H1.start\n    horn H1 2000 ohms to A-';
    expect(silent(check, power, [horn, choke])).toEqual([]);
  });

  it('is burdened by a tube that draws far too much, which is the fault itself', () => {
    const text = power.replace('from C-27', 'from A-');
    expect(findingsOf(check, text)).toEqual([]);
  });

  it('is an interstage primary without a rating, at a few milliamperes', () => {
    expect(silent(check, check.fails, [' 1 mA', ''])).toEqual([]);
  });

  it('is not judged by a resistance that is not stated', () => {
    const text = check.fails.replace(
      '1 mA from V2.plate to B+90',
      '1 mA from V2.plate to R9.start',
    );
    expect(
      silent(check, text.replace('  detector stage', '  resistor R9 to B+90\n  detector stage')),
    ).toEqual([]);
  });
});
