import { describe, expect, it } from 'vitest';
import { batteryDrain } from '../../src/checks/battery-drain.ts';
import { edited } from '../edited.ts';
import { filamentSet } from '../filament-set.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(batteryDrain, text));
const tubes = (battery: string, type: string, count: number): string =>
  filamentSet(
    battery,
    ...Array.from({ length: count }, (_, index) => [
      `rheostat RH${index + 1} 60 ohms from NEG`,
      `tube V${index + 1} ${type} { filament from RH${index + 1} to A+ }`,
    ]).flat(),
  );

describe('a battery that is asked for more than its kind gives', () => {
  it('is a row of dry cells with five quarter-ampere tubes; the hours are said', () => {
    const text = batteryDrain.fails;
    expect(say(text)).toEqual(['battery-drain warning @ battery A dry']);
    expect(heard(batteryDrain, text)).toEqual([
      '5 filaments draw 1.25 A from A, 5 times what dry cells give without strain; its 30 Ah last 24 hours at the most.',
    ]);
    expect(findingsOf(batteryDrain, text)[0]?.parts).toEqual(['A']);
    expect(heard(batteryDrain, batteryDrain.passes)).toEqual([]);
  });

  it('says no hours where the capacity is not given', () => {
    const text = edited(batteryDrain.fails, ['    capacity 30 Ah\n', '']);
    expect(heard(batteryDrain, text)[0]).toMatch(/what dry cells give without strain\.$/);
  });

  it('is information where it is less than five times as much', () => {
    const text = tubes('dry 6 V', '01-A', 2);
    expect(findingsOf(batteryDrain, text).map(({ severity }) => severity)).toEqual(['information']);
  });

  it('may be a storage battery that is too small', () => {
    const text = edited(batteryDrain.passes, ['capacity 100 Ah', 'capacity 4 Ah']);
    expect(heard(batteryDrain, text)).toEqual([
      '5 filaments draw 1.25 A from A, 3.1 times what a storage battery of its size gives without strain; its 4 Ah last 3.2 hours at the most.',
    ]);
  });
});

describe('a battery is not overtaxed', () => {
  it('by one quarter-ampere tube, or four of 60 mA, on large dry cells', () => {
    expect(heard(batteryDrain, tubes('dry 1.5 V', '12', 1))).toEqual([]);
    expect(heard(batteryDrain, tubes('dry 4.5 V', '99', 4))).toEqual([]);
  });

  it('where two rows of cells stand side by side, as their capacity says', () => {
    const text = edited(tubes('dry 4.5 V', '99', 5), [
      'tap A+ 4.5 V',
      'tap A+ 4.5 V\n    capacity 60 Ah',
    ]);
    expect(heard(batteryDrain, text)).toEqual([]);
  });

  it('where a supply stands in its place', () => {
    const text = edited(tubes('dry 6 V', '01-A', 5), ['battery A dry', 'eliminator A']);
    expect(heard(batteryDrain, text)).toEqual([]);
  });

  it('where nothing is known of it', () => {
    expect(heard(batteryDrain, tubes('storage 6 V', '01-A', 5))).toEqual([]);
  });
});

describe('a B battery', () => {
  const portable = edited(batteryDrain.passes, [
    'tap B+90 90 V',
    'tap B+90 90 V\n    capacity 1 Ah',
  ]);

  it('gives the plates more than it can without strain; the hours are said', () => {
    const found = findingsOf(batteryDrain, portable);
    expect(found[0]?.message).toMatch(
      /^B gives 9\.\d mA to the plates \(B\+90 9\.\d mA\), 2\.\d times what it gives without strain; its 1 Ah last 110 hours at the most\.$/,
    );
    expect(found[0]?.parts).toEqual(['B']);
    expect(found[0]?.severity).toBe('information');
  });

  it('says no hours where its capacity is not given', () => {
    const text = edited(batteryDrain.passes.replaceAll('from C-4.5', 'from A-'), [
      'tap B+90 90 V',
      'tap B+90 135 V',
    ]);
    const said = findingsOf(batteryDrain, text).map(({ message }) => message);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/^B gives \d\d mA .* without strain\.$/);
  });

  it('is a warning from five times on', () => {
    const small = edited(portable, ['capacity 1 Ah', 'capacity .3 Ah']);
    expect(findingsOf(batteryDrain, small)[0]?.severity).toBe('warning');
  });

  it('gives what it easily can', () => {
    const large = edited(portable, ['capacity 1 Ah', 'capacity 10 Ah']);
    expect(heard(batteryDrain, large)).toEqual([]);
  });

  it('is as good as shorted, which another check says', () => {
    const text = edited(portable, [
      '  radio stage RF {',
      '  resistor R9 50 ohms from B+90 to A-\n  radio stage RF {',
    ]);
    expect(heard(batteryDrain, text)).toEqual([]);
  });

  it('may hang on a resistance that is not stated', () => {
    const text = edited(portable, [
      '  radio stage RF {',
      '  resistor R9 from B+90 to A-\n  radio stage RF {',
    ]);
    expect(heard(batteryDrain, text)).toEqual([]);
  });
});

describe('a C battery', () => {
  const text = (ohms: string): string =>
    edited(batteryDrain.passes, [
      '  radio stage RF {',
      `  resistor R9 ${ohms} from C-4.5 to C+\n  radio stage RF {`,
    ]);

  it('is to give nothing', () => {
    expect(heard(batteryDrain, text('2000 ohms'))).toEqual([
      'C gives 2.2 mA, and a bias battery is to give nothing.',
    ]);
    expect(findingsOf(batteryDrain, text('400 ohms'))[0]?.severity).toBe('warning');
  });

  it('may feed a divider of many ohms', () => {
    expect(heard(batteryDrain, text('50 kilohms'))).toEqual([]);
  });
});
