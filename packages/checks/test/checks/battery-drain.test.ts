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
