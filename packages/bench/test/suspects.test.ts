import type { Bench } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { suspectsBook, suspectsOf } from '../src/suspects/suspects-of.ts';
import { exampleSet, setOf } from './example-set.ts';
import { METER, setWithBench, suspectsBy } from './suspects-set.ts';

/** The suspects' ids, the most probable first. */
const idsBy = (...lines: readonly string[]) => suspectsBy(...lines).suspects.map(({ id }) => id);

describe('suspects by the readings', () => {
  it('of a plate without volts or current are what lies on its way', () => {
    const first = idsBy('heard "silent"', 'reading V1.plate 0 V', 'reading B+45 0 mA').slice(0, 5);
    expect(first.sort()).toEqual([
      'open B+45',
      'open CH1',
      'open L1.tickler',
      'open T1.primary',
      'open V1.plate',
    ]);
  });

  it('become one when its own ohms are read', () => {
    const { suspects } = suspectsBy('reading V1.plate 0 V', 'reading T1.primary open lifted');
    expect(suspects[0]?.id).toBe('open T1.primary');
    expect(suspects[0]?.probability).toBeGreaterThan(0.9);
    expect(suspects[0]?.speaksFor).toEqual([
      'V1.plate 0 V in place of 40.9 V',
      'T1.primary lifted open in place of 900 ohms',
    ]);
  });

  it('count the shares of one another: all together make one', () => {
    const { suspects, sound } = suspectsBy('reading V1.plate 31 V');
    const whole = suspects.reduce((sum, { probability }) => sum + probability, sound);
    expect(whole).toBeCloseTo(1, 9);
  });

  it('name two faults where one does not explain it all', () => {
    const { suspects, unexplained } = suspectsBy(
      'reading V1.plate 0 V',
      'reading T1.primary open lifted',
      'reading PH1 open lifted',
      'reading V2.plate 0 V',
    );
    expect(suspects[0]?.id.split(' and ').sort()).toEqual(['open PH1', 'open T1.primary']);
    expect(unexplained).toEqual([]);
  });

  it('stand behind a reading that nothing explains', () => {
    const { unexplained } = suspectsBy(
      'reading V1.plate 41 V',
      'reading B+45 2 mA',
      'reading V2.filament+ 2 V',
      'reading T1.secondary 40 ohms lifted',
    );
    expect(unexplained).toEqual(['T1.secondary lifted']);
  });

  it('do not take a battery for low whose volts were found', () => {
    const circuit = setWithBench(METER, 'actual B+90 90 V', 'heard "weak"');
    const [bench] = circuit.benches as readonly [Bench];
    const ids = suspectsOf(circuit, bench).suspects.map(({ id }) => id);
    expect(ids.some((id) => /^weak A /.test(id))).toBe(true);
    expect(ids.some((id) => /^weak B /.test(id))).toBe(false);
  });

  it('hold the set for sound where all is as it should be', () => {
    const readings = [
      'reading V1.plate 41 V',
      'reading V2.plate 85 V',
      'reading B+45 2 mA',
      'reading A+ .115 A',
    ];
    const { suspects, sound } = suspectsBy(...readings, 'dial D1 50', 'dial D2 50');
    expect(sound).toBeGreaterThan(suspects[0]?.probability ?? 1);
  });

  it('that nothing tells apart are one, and said to be', () => {
    const { suspects } = suspectsBy('heard "weak"');
    const green = suspects.find(({ id }) => id === 'change A- to 0.5 ohms');
    const other = suspects.find(({ id }) => id === 'change A+ to 0.5 ohms');
    expect((green ?? other)?.alike.map(({ id }) => id)).toEqual([
      green ? 'change A+ to 0.5 ohms' : 'change A- to 0.5 ohms',
    ]);
  });
});

describe('suspects by the ear', () => {
  const shareOf = (id: string, ...lines: readonly string[]) =>
    suspectsBy(...lines).suspects.find((each) => each.id === id)?.probability ?? 0;

  it('go by what is heard', () => {
    const id = 'microphonic V1';
    expect(shareOf(id, 'heard "microphonic"')).toBeGreaterThan(10 * shareOf(id, 'heard "silent"'));
  });

  it('go by clicks: behind a stage that clicks nothing is dead', () => {
    const id = 'open PH1';
    const heard = shareOf(id, 'heard "silent"', 'click V2 heard');
    expect(shareOf(id, 'heard "silent"', 'click V2 silent')).toBeGreaterThan(5 * heard);
  });

  it('go by a faint click: what is lost is lost behind that grid', () => {
    const id = 'turns 2000 shorted in T1.primary';
    const faint = shareOf(id, 'heard "weak"', 'click V1 faint', 'click V2 heard');
    expect(faint).toBeGreaterThan(3 * shareOf(id, 'heard "weak"', 'click V1 heard'));
    expect(faint).toBeGreaterThan(3 * shareOf(id, 'heard "weak"', 'click V2 faint'));
  });

  it('go by a dial on which a station is broad', () => {
    const id = 'damped L1.grid to Q 20';
    const sharp = shareOf(id, 'heard "weak"', 'dial D1 40');
    expect(shareOf(id, 'heard "weak"', 'dial D1 broad')).toBeGreaterThan(5 * sharp);
  });

  it('go by a dial that does nothing', () => {
    const id = 'open C1';
    const works = shareOf(id, 'heard "faint"', 'dial D1 40');
    expect(shareOf(id, 'heard "faint"', 'dial D1 no effect')).toBeGreaterThan(2 * works);
  });
});

describe('the next reading', () => {
  it('is cold while the set has not been on', () => {
    const { next } = suspectsBy('reading T1.primary open lifted');
    expect(next?.test).toMatchObject({ kind: 'reading', spot: { state: 'cold' } });
  });

  it('is none that was taken', () => {
    const lines = ['heard "silent"', 'reading V1.plate 0 V', 'reading B+45 0 mA'];
    for (let more = 0; more < 4; more++) {
      const { next } = suspectsBy(...lines);
      if (!next) break;
      const at = next.line.split(' … ')[0] ?? '';
      expect(lines.filter((line) => line.startsWith(`${at} `))).toEqual([]);
      lines.push(next.line.replace('…', '0'));
    }
  });

  it('tells what each of those left would show', () => {
    const { next } = suspectsBy('heard "silent"', 'reading V1.plate 0 V', 'reading B+45 0 mA');
    expect(next?.because).toMatch(/ if .*; .* if /);
    expect(next?.bits).toBeGreaterThan(0.5);
  });
});

describe('a bench of any kind', () => {
  const place = { file: 'odd', start: 0, end: 0 };
  const entry = {
    at: undefined,
    to: undefined,
    value: undefined,
    range: undefined,
    words: [],
    text: undefined,
    place,
  };
  const value = (number: number, dimension: 'voltage' | 'current' | 'resistance') => ({
    value: number,
    dimension,
    text: '',
    place,
  });
  const odd: Bench = {
    title: 'odd',
    place,
    entries: [
      { ...entry, kind: 'meter', value: value(Number.NaN, 'resistance') },
      { ...entry, kind: 'actual', at: 'B.B+45', value: value(-1e9, 'voltage') },
      ...[Number.NaN, 1e300, -1e300, Number.POSITIVE_INFINITY, 0].flatMap((number) =>
        (['voltage', 'current', 'resistance'] as const).map((dimension) => ({
          ...entry,
          kind: 'reading' as const,
          at: 'V1.plate',
          value: value(number, dimension),
        })),
      ),
      { ...entry, kind: 'reading', at: 'NOBODY' },
      { ...entry, kind: 'reading', at: 'T1.primary', words: ['open', 'short', 'lifted'] },
      { ...entry, kind: 'heard', text: 'a choir' },
      { ...entry, kind: 'click', at: 'B', words: ['heard'] },
      { ...entry, kind: 'dial', at: 'D9', words: ['no', 'effect'] },
    ],
  };
  const numbersOf = ({ suspects, sound, next }: ReturnType<typeof suspectsOf>) => [
    sound,
    next?.bits ?? 0,
    ...suspects.map(({ probability }) => probability),
  ];

  it('with nothing in it gives suspects by how common they are', () => {
    const found = suspectsBy();
    expect(found.said).toBe(0);
    expect(numbersOf(found).every(Number.isFinite)).toBe(true);
  });

  it('with absurd numbers throws nothing, and no number is lost', () => {
    expect(numbersOf(suspectsOf(setWithBench(), odd)).every(Number.isFinite)).toBe(true);
  });

  it.each([
    ['a set without tubes', exampleSet('crystal')],
    ['a set without parts', setOf('receiver "Nothing" {\n}\n')],
    ['a lone battery', setOf('receiver "Battery" {\n  battery A storage {\n    tap A-\n  }\n}\n')],
  ])('does for %s', (_, circuit) => {
    expect(numbersOf(suspectsOf(circuit, odd)).every(Number.isFinite)).toBe(true);
  });

  it('leads to the same twice over, with the set worked out before or not', () => {
    const circuit = setWithBench(METER, 'heard "weak"', 'reading V1.plate 31 V');
    const [bench] = circuit.benches;
    if (!bench) throw new Error('the set has no bench');
    const once = suspectsOf(circuit, bench);
    const again = suspectsOf(circuit, bench, {}, suspectsBook(circuit, { bench }));
    expect(again.suspects).toEqual(once.suspects);
    expect(again.next).toEqual(once.next);
  });
});
