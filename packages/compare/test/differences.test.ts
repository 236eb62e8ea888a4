import { describe, expect, it } from 'vitest';
import { applyDifferences, equalSets, isSame } from '../src/index.ts';
import { changed, cove, differing, setOf } from './texts.ts';

const nothing = {
  renamed: [],
  tapsRenamed: [],
  removed: [],
  added: [],
  tapsRemoved: [],
  tapsAdded: [],
  changed: [],
  moved: [],
};

describe('what is no difference', () => {
  it.each([
    ['a value written otherwise', ['.00025 mfd', '250 mmfd']],
    ['a part declared without its stage’s help', ['to B+45', 'to B.B+45']],
    [
      'a point named by another terminal of it',
      ['from V1.plate to NEG', 'from T1.primary.start to V1.filament-'],
    ],
    [
      'a join said by a wire',
      [
        'condenser C3 .001 mfd from V1.plate to NEG',
        'wire C3.start to V1.plate\n    condenser C3 .001 mfd to NEG',
      ],
    ],
    ['a band in another unit', ['550 kc to 1500 kc', '1.5 Mc to 550 kHz']],
  ] as const)('%s', (_, piece) => {
    expect(differing([...piece])).toEqual(nothing);
  });

  it('a lead named by its other ends', () => {
    const lead = (words: string) => setOf(changed(['wire B- to A-', `wire B- to A-\n  ${words}`]));
    const [one, other] = [lead('wire A- to PH1.finish .4 ohms'), lead('wire B+90 to B- .4 ohms')];
    expect(equalSets(one, other)).toBe(true);
  });
});

describe('what is told of', () => {
  it('a part that is gone, and where it stood', () => {
    const { removed, ...rest } = differing([
      '    condenser C3 .001 mfd from V1.plate to NEG\n',
      '',
    ]);
    expect(removed).toMatchObject([
      {
        thing: { id: 'C3', kind: 'condenser' },
        ends: [
          { end: 'C3.finish', from: 'NEG' },
          { end: 'C3.start', from: 'V1.plate' },
        ],
      },
    ]);
    expect({ ...rest, removed: [] }).toEqual(nothing);
  });

  it('a part that is new, and where it goes', () => {
    const { added, ...rest } = differing([
      '  rheostat RH1',
      '  condenser C9 .5 mfd from B+90 to V2.filament-\n  rheostat RH1',
    ]);
    expect(added).toMatchObject([
      {
        thing: { id: 'C9', kind: 'condenser' },
        ends: [
          { end: 'C9.finish', to: 'NEG' },
          { end: 'C9.start', to: 'B.B+90' },
        ],
      },
    ]);
    expect({ ...rest, added: [] }).toEqual(nothing);
  });

  it('a value, with what it was', () => {
    const { changed: told } = differing(['leak R1 2 meg', 'leak R1 3 meg']);
    expect(told).toMatchObject([
      { thing: 'R1', slot: 'resistance', before: [[{ value: 2e6 }]], after: [[{ value: 3e6 }]] },
    ]);
  });

  it('an end that went elsewhere, by the firmest name of each point', () => {
    const { moved, ...rest } = differing(['to V1.grid\n    leak', 'to V2.plate\n    leak']);
    expect(moved).toEqual([{ ends: ['C2.finish'], from: 'V1.grid', to: 'V2.plate' }]);
    expect({ ...rest, moved: [] }).toEqual(nothing);
  });

  it('a line of the set that was parted from another', () => {
    const { moved } = differing(['  wire B- to A-\n', '']);
    expect(moved).toEqual([{ ends: ['B.B-'], from: 'A.A-', to: undefined }]);
  });

  it('two lines of the set that were joined', () => {
    const { moved } = differing(['  wire B- to A-\n', '  wire B- to A- to NEG\n']);
    expect(moved).toHaveLength(1);
    expect(moved[0]).toMatchObject({ from: undefined });
  });

  it('a tap of a battery under a new name, and its volts', () => {
    const { tapsRenamed, changed: told, ...rest } = differing(['B+45', 'B+48']);
    expect(tapsRenamed).toEqual([{ kind: 'battery', before: 'B.B+45', after: 'B.B+48' }]);
    expect(told.map(({ thing, slot }) => [thing, slot])).toEqual([['B', 'taps']]);
    expect({ ...rest, tapsRenamed: [], changed: [] }).toEqual(nothing);
  });

  it('a tap of far other volts as another tap, though the same is joined to it', () => {
    const { tapsRenamed, tapsRemoved, tapsAdded } = differing(['B+45', 'B+135']);
    expect(tapsRenamed).toEqual([]);
    expect(tapsRemoved).toEqual([{ thing: 'B', end: 'B.B+45', from: 'T1.primary.finish' }]);
    expect(tapsAdded).toEqual([{ thing: 'B', end: 'B.B+135', to: 'T1.primary.finish' }]);
  });

  it('a part of another kind in its place', () => {
    const { changed: told, removed, added } = differing(['leak R1 2 meg', 'resistor R1 2 meg']);
    expect([removed, added]).toEqual([[], []]);
    expect(told).toMatchObject([{ thing: 'R1', slot: 'kind', after: [['resistor']] }]);
  });
});

describe('names', () => {
  it('that alone have changed are all that is told of', () => {
    const { renamed, ...rest } = differing(['C2', 'C7'], ['L1', 'L9']);
    expect(renamed.map(({ before, after }) => `${before} ${after}`)).toEqual([
      'C2 C7',
      'L1 L9',
      'L1.aerial L9.aerial',
      'L1.grid L9.grid',
    ]);
    expect({ ...rest, renamed: [] }).toEqual(nothing);
  });

  it('that were all numbered on by one are followed', () => {
    const { renamed, ...rest } = differing(['C3', 'C4'], ['C2', 'C3'], ['C1', 'C2']);
    expect(renamed.map(({ before, after }) => `${before} ${after}`)).toEqual([
      'C1 C2',
      'C2 C3',
      'C3 C4',
    ]);
    expect({ ...rest, renamed: [] }).toEqual(nothing);
  });

  it('that two tubes exchanged are followed', () => {
    const { renamed, ...rest } = differing(['V1', 'V?'], ['V2', 'V1'], ['V?', 'V2']);
    expect(renamed.map(({ before, after }) => `${before} ${after}`)).toEqual(['V1 V2', 'V2 V1']);
    expect({ ...rest, renamed: [] }).toEqual(nothing);
  });

  it('are followed where a value changed as well', () => {
    const { renamed, changed: told } = differing(['leak R1 2 meg', 'leak R5 3 meg']);
    expect(renamed).toEqual([{ kind: 'leak', before: 'R1', after: 'R5' }]);
    expect(told.map(({ thing, slot }) => [thing, slot])).toEqual([['R5', 'resistance']]);
  });

  it('of a part in another place with another value are no new name', () => {
    const { renamed, removed, added } = differing([
      'condenser C3 .001 mfd from V1.plate to NEG',
      'condenser C8 2 mfd from B+90 to A-',
    ]);
    expect(renamed).toEqual([]);
    expect([removed[0]?.thing.id, added[0]?.thing.id]).toEqual(['C3', 'C8']);
  });

  it('of a stage are followed by what it holds', () => {
    const { renamed } = differing(['stage DET', 'stage DETECTOR']);
    expect(renamed).toEqual([{ kind: 'stage', before: 'stage:DET', after: 'stage:DETECTOR' }]);
  });
});

describe('the differences applied', () => {
  it('make the new set of the old', () => {
    const now = setOf(
      changed(
        ['B+45', 'B+67'],
        ['C2', 'C8'],
        ['    condenser C3 .001 mfd from V1.plate to NEG\n', ''],
        ['taps 4', 'taps 5, 8'],
      ),
    );
    const differences = differing(
      ['B+45', 'B+67'],
      ['C2', 'C8'],
      ['    condenser C3 .001 mfd from V1.plate to NEG\n', ''],
      ['taps 4', 'taps 5, 8'],
    );
    expect(equalSets(applyDifferences(setOf(cove), differences), now)).toBe(true);
  });

  it('are plain data that a file can hold', () => {
    const differences = differing(['C2', 'C8'], ['leak R1 2 meg', 'leak R1 3 meg']);
    expect(JSON.parse(JSON.stringify(differences))).toEqual(differences);
    expect(isSame(differences)).toBe(false);
  });

  it('that belong to another set throw nothing', () => {
    const other = setOf('receiver "Other" { bus X }');
    expect(() => applyDifferences(other, differing(['C2', 'C8'], ['B+45', 'B+67']))).not.toThrow();
  });
});
