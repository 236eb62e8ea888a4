import { describe, expect, it } from 'vitest';
import { groupVolts, ohmsFor } from '../../src/filaments/group-volts.ts';
import { studyOf } from '../../src/study.ts';
import { filamentSet } from '../filament-set.ts';
import { circuitOf } from '../support.ts';

const groupsOf = (text: string) => studyOf(circuitOf(text)).filamentGroups;

describe('filament groups', () => {
  it('are what meets only at the battery: tubes with a rheostat of their own stand apart', () => {
    const groups = groupsOf(
      filamentSet(
        'storage 6 V',
        'rheostat RH1 10 ohms from NEG',
        'rheostat RH2 20 ohms from NEG',
        'tube V1 01-A { filament from RH1 to A+ }',
        'tube V2 01-A { filament from RH1 to A+ }',
        'tube V3 01-A { filament from RH2 to A+ }',
      ),
    );
    const names = groups.map(({ branches, filaments }) =>
      filaments.map((index) => branches[index]?.part.name),
    );
    expect(names).toEqual([['V1', 'V2'], ['V3']]);
    expect(groups.every(({ known, supply }) => known && supply?.name === 'A')).toBe(true);
  });

  it('agree with the solution of the whole set', () => {
    const text = filamentSet(
      'storage 6 V',
      'bus SET',
      'wire NEG to SET .3 ohms',
      'rheostat RH1 10 ohms from SET set 1.2 ohms',
      'resistor R1 3 ohms from SET to V3.filament-',
      'tube V1 01-A { filament from RH1 to A+ }',
      'tube V2 12-A { filament from RH1 to V1.filament+ }',
      'tube V3 01-A { filament to A+ }',
    );
    const study = studyOf(circuitOf(text));
    const [group] = study.filamentGroups;
    if (!group) throw new Error('there is one group');
    const volts = groupVolts(group);
    for (const { tube, volts: whole } of study.solved.filaments) {
      const branch = group.branches.findIndex(({ part }) => part.name === tube);
      expect(volts(branch)).toBeCloseTo(whole ?? Number.NaN, 9);
    }
    // The same with a tube pulled, but for what the battery's own 0.02 ohm gives back.
    const without = study.solved.solveWithout(['V2']);
    const pulled = group.branches.findIndex(({ part }) => part.name === 'V2');
    const left = groupVolts(group, { without: new Set([pulled]) });
    for (const { tube, volts: whole } of without.filaments) {
      const branch = group.branches.findIndex(({ part }) => part.name === tube);
      expect(Math.abs(left(branch) - (whole ?? Number.NaN))).toBeLessThan(0.01);
    }
  });

  it('give the ohms for a voltage: 4 ohms before an 01-A on 6 V', () => {
    const [group] = groupsOf(
      filamentSet(
        'storage 6 V',
        'rheostat RH1 20 ohms from NEG set 1 ohms',
        'tube V1 01-A { filament from RH1 to A+ }',
      ),
    );
    if (!group) throw new Error('there is one group');
    const rheostat = group.branches.findIndex(({ part }) => part.name === 'RH1');
    const filament = group.branches.findIndex(({ part }) => part.name === 'V1');
    expect(ohmsFor(group, rheostat, filament, 5)).toBeCloseTo(4, 1);
    expect(ohmsFor(group, rheostat, filament, 7)).toBeUndefined();
  });
});
