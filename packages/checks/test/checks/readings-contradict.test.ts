import { describe, expect, it } from 'vitest';
import { readingsContradict as check } from '../../src/checks/readings-contradict.ts';
import { benchExample, withBenches } from '../../src/examples/bench-example.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix } from '../trying.ts';

const METER = 'meter 1000 ohms per volt 2 %';
const said = (...lines: string[]): string[] => saidOf(check, benchExample(METER, ...lines));

describe('readings that contradict one another', () => {
  it('are told at the last one, with the other one beside it', () => {
    const found = findingsOf(check, check.fails);
    expect(told(check.fails, found)).toEqual([
      'readings-contradict warning @ reading V2.plate 77 V on 100 V',
    ]);
    expect(found[0]?.related.map(({ place }) => check.fails.slice(place.start, place.end))).toEqual(
      ['reading V2.plate 87 V on 100 V'],
    );
  });

  it('of one point: either may be struck out', () => {
    expect(afterFix(check, check.fails, 0)).not.toContain('77 V');
    expect(afterFix(check, check.fails, 1)).not.toContain('87 V');
  });

  it('are leads that together give another current than comes home', () => {
    const lines = ['reading B+45 2 mA', 'reading B+90 2 mA', 'reading B+135 5 mA'];
    expect(said(...lines, 'reading B- 14 mA')).toEqual([
      'warning: B- carries 14 mA home, but B+45, B+90 and B+135 together give 9 mA: what goes out must come home, whatever is faulty.',
    ]);
    expect(said(...lines, 'reading B- 9.2 mA')).toEqual([]);
  });

  it('are volts along a way that add up to more than there is', () => {
    const [line] = said('actual B+135 135 V', 'reading V3.plate 130 V', 'reading H1 40 V');
    expect(line).toContain('more than all the batteries of the set have together');
  });

  it('are filaments alight with no current in the A lead', () => {
    const [line] = said('actual A+ 6 V', 'reading V1.filament+ 5 V', 'reading A+ 50 mA');
    expect(line).toContain('the A+ lead carries 50 mA');
  });

  it('are more ohms in place than by itself', () => {
    const [line] = said('reading T1.primary 900 ohms', 'reading T1.primary 300 ohms lifted');
    expect(line).toContain('what lies beside it can only make it less');
  });
});

describe('readings that may all be true', () => {
  it('differ by no more than the meter may be off', () => {
    expect(silent(check, check.passes)).toEqual([]);
    expect(said('reading V2.plate 87 V on 250 V', 'reading V2.plate 83 V on 250 V')).toEqual([]);
  });

  it('were taken of leads of which one is missing', () => {
    expect(said('reading B+45 2 mA', 'reading B+90 2 mA', 'reading B- 14 mA')).toEqual([]);
  });

  it('stand in different benches', () => {
    const text = withBenches([METER, 'reading V2.plate 87 V'], [METER, 'reading V2.plate 57 V']);
    expect(silent(check, text)).toEqual([]);
  });

  it('were taken on two ranges of a pointer instrument', () => {
    expect(said('reading V3.grid -6 V on 10 V', 'reading V3.grid -8.6 V on 250 V')).toEqual([]);
  });

  it('are of a set with an eliminator, which climbs without load', () => {
    const volts = 'reading V3.plate 190 V';
    expect(said(volts)).toHaveLength(1);
    const text = benchExample(METER, volts).replace(
      /battery B dry \{[^}]*\}/,
      'eliminator B {\n tap B-\n tap B+45 45 V\n tap B+90 90 V\n tap B+135 135 V\n }',
    );
    expect(silent(check, text)).toEqual([]);
  });
});
