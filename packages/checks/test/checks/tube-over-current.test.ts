import { describe, expect, it } from 'vitest';
import { biasOutOfStep } from '../../src/checks/bias-out-of-step.ts';
import { plateOverVoltage } from '../../src/checks/plate-over-voltage.ts';
import { tubeOverCurrent as check } from '../../src/checks/tube-over-current.ts';
import { checkCircuit } from '../../src/run.ts';
import { saidOf, silent } from '../at-work.ts';
import { circuitOf, findingsOf, told } from '../support.ts';

describe('a tube that draws too much', () => {
  it('is told with what it draws and what would suit it', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'tube-over-current warning @ tube V2 01-A',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^V2 draws about [67]\.?\d? mA from B\+135 with -4\.5 V of bias, 2\.\d times what a 01-A is published with at 135 V \(3 mA\)\.$/,
    );
    expect(found?.cure).toMatch(/^Give its grid about -8\.\d V of bias/);
    expect(found?.parts).toEqual(['V2']);
  });

  it('is a radio tube on 135 V with no bias as well', () => {
    const text = check.fails
      .replace('from C-4.5 to V2.grid', 'from A- to V2.grid')
      .replace('audio stage AF1', 'radio stage AF1');
    expect(saidOf(check, text)[0]).toMatch(/^warning: V2 draws about/);
  });

  it('speaks once, before the check of bias', () => {
    const all = checkCircuit(circuitOf(check.fails), [check, biasOutOfStep]).findings;
    expect(all.map((finding) => finding.check)).toEqual(['tube-over-current']);
  });
});

describe('a tube that may draw what it draws', () => {
  it('is one as published', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is of a type without published current', () => {
    const own = '\ntube type 01-A {\n  filament 5 V .25 A\n  amplification 8\n}\n';
    expect(silent(check, check.fails + own).filter((said) => said.includes('draws'))).toEqual([]);
  });

  it('is an oscillator', () => {
    expect(silent(check, check.fails, ['audio stage AF1', 'oscillator stage AF1'])).toEqual([]);
  });

  it('is a radio tube on 67 V with no bias', () => {
    const text = check.passes
      .replace('from C-4.5 to V2.grid', 'from A- to V2.grid')
      .replace('tap B+90 90 V', 'tap B+90 67.5 V')
      .replace('audio stage AF1', 'radio stage AF1');
    expect(silent(check, text)).toEqual([]);
  });

  it('is a radio tube on 90 V with no bias: information, for it was usual', () => {
    const text = check.passes
      .replace('from C-4.5 to V2.grid', 'from A- to V2.grid')
      .replace('audio stage AF1', 'radio stage AF1');
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
  });

  it('is information within a tenth of the edge', () => {
    const near = ['-2.75', '-3', '-3.25', '-3.5', '-6', '-6.25', '-6.5', '-6.75', '-7'].map(
      (bias) =>
        findingsOf(check, check.fails.replace('tap C-4.5', `tap C-4.5 ${bias} V`)).map(
          ({ severity }) => severity,
        )[0],
    );
    expect(new Set(near)).toContain('information');
  });

  it('is over its voltage, which is said by another check', () => {
    const text = plateOverVoltage.fails.replace('from C-13', 'from C-4.5');
    expect(findingsOf(plateOverVoltage, text)).toHaveLength(1);
    expect(findingsOf(check, text)).toEqual([]);
  });

  it('stands behind a high resistor, or one of which the size is not stated', () => {
    const high = 'resistor R9 250 kilohms from V2.plate to B+135';
    const transformer = check.fails.slice(
      check.fails.indexOf('    transformer T2'),
      check.fails.indexOf('    tube V3'),
    );
    const own =
      '\ntube type 40 "x" {\n  filament 5 V .25 A\n  amplification 30\n  point plate 85 V grid -1.5 V current .02 mA resistance 150000 ohms\n}\n';
    const coupled = check.fails
      .replace(
        transformer,
        `    ${high}\n    condenser C4 .01 mfd from V2.plate to V3.grid\n    leak R8 .5 meg from V3.grid to C-9\n`,
      )
      .replace('tube V2 01-A', 'tube V2 40')
      .concat(own);
    expect(findingsOf(check, coupled)).toEqual([]);
    const unsized = check.fails.replace(
      'from V2.plate to B+135',
      'from V2.plate\n    }\n    resistor R9 from T2.primary.finish to B+135\n    condenser C4 1 mfd from T2.primary.finish to A-\n    transformer T9 {\n      winding primary from V2.plate',
    );
    expect(findingsOf(check, unsized)).toEqual([]);
  });
});
