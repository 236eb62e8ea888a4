import { describe, expect, it } from 'vitest';
import { asFound, asOn, conductionOf, directPath } from '../src/index.ts';
import { battery, ohms, part, setOf, tube } from './drafts.ts';

const B = battery('B', { 'B-': 0, 'B+90': 90 });
const wiring = ['B- V1.filament-', 'B+90 T1.primary.start', 'T1.primary.finish V1.plate'];

const primary = ohms('winding', 'T1.primary', 800);
const found = (...words: string[]) => ({ ...primary, words: new Set(words) });

const fed = (circuit: ReturnType<typeof setOf>): boolean => {
  const conduction = conductionOf(circuit, asOn(circuit).settings);
  const goal = circuit.endNamed.get('B.B+90')?.junction;
  const from = circuit.endNamed.get('V1.plate')?.junction ?? -1;
  return directPath(conduction, from, (junction) => junction === goal).found;
};

describe('a set as it was found', () => {
  it('has no path through a winding that was found open', () => {
    const set = setOf([B, found('found open'), tube('V1')], wiring);
    expect([fed(set), fed(asFound(set))]).toEqual([true, false]);
  });

  it('keeps the junctions that an open part is wired to', () => {
    const set = setOf([B, found('found open'), tube('V1')], wiring);
    const junction = asFound(set).endNamed.get('V1.plate')?.junction ?? -1;
    expect(asFound(set).junctions[junction]?.terminals).toContain('T1.primary.finish');
  });

  it('has both ends of a part that was found shorted on one junction', () => {
    const set = asFound(setOf([B, found('found short'), tube('V1')], wiring));
    expect(set.endNamed.get('V1.plate')?.junction).toBe(set.endNamed.get('B.B+90')?.junction);
  });

  it('has the value that was found in place of the one that is printed', () => {
    const printed = primary.values.resistance!;
    const measured = { ...printed, value: 1150, text: '1150 ohms' };
    const set = setOf(
      [B, { ...primary, values: { ...primary.values, found: measured } }, tube('V1')],
      wiring,
    );
    expect(asFound(set).partNamed.get('T1.primary')?.values.resistance).toEqual(measured);
    expect(set.partNamed.get('T1.primary')?.values.resistance).toEqual(printed);
  });

  it('has no current in the filament of a tube that was found open', () => {
    const whole = tube('V1');
    const set = setOf([B, primary, { ...whole, words: new Set(['found open']) }], wiring);
    const branches = (circuit: typeof set) =>
      conductionOf(circuit, asOn(circuit).settings).branches.filter(
        ({ from, to }) => from === 'V1.filament-' && to === 'V1.filament+',
      ).length;
    expect([branches(set), branches(asFound(set))]).toEqual([1, 0]);
  });

  it('is the same where nothing was found', () => {
    const set = setOf([B, primary, part('phones', 'P1'), tube('V1')], wiring);
    expect(asFound(set)).toEqual(set);
  });
});
