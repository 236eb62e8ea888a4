import type { PartDraft } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import {
  battery,
  filamentType,
  nowhere,
  ohms,
  onOff,
  part,
  setOf,
  tube,
  type99,
  value,
} from '../../../test/support/drafts.ts';
import { directCurrent } from '../src/index.ts';
import { gaussian, numbers } from './dense.ts';

/** A battery whose resistance is next to nothing, so that figures are those of the book. */
function stiff(name: string, taps: Record<string, number>): PartDraft {
  return battery(name, taps, { values: { resistance: value(1e-3, 'resistance') } });
}

const storage = (resistance = 1e-3) =>
  battery(
    'A',
    { 'A-': 0, 'A+': 6 },
    { words: new Set(['storage']), values: { resistance: value(resistance, 'resistance') } },
  );

describe('a filament', () => {
  it('on a rheostat as set gets what Ohm says', () => {
    // 6 V, 4 ohms and a filament of 20 ohms: 5 V, 0.25 A, less what a milliohm takes.
    const circuit = setOf(
      [
        storage(),
        ohms('rheostat', 'RH1', 20, { setting: { kind: 'ohms', ohms: 4, place: nowhere } }),
        tube('V1'),
      ],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const [filament] = directCurrent(circuit).filaments;
    expect(filament).toMatchObject({ tube: 'V1', ratedVolts: 5, ratedAmperes: 0.25 });
    expect(filament?.volts).toBeCloseTo(120 / 24.001, 9);
    expect(filament?.amperes).toBeCloseTo(6 / 24.001, 9);
  });

  it('with its leads crossed has its volts the other way round', () => {
    const circuit = setOf([storage(), tube('V1')], ['A+ V1.filament-', 'A- V1.filament+']);
    expect(directCurrent(circuit).filaments[0]?.volts).toBeCloseTo(-6, 3);
  });

  it('with one end off gets nothing', () => {
    const circuit = setOf([storage(), tube('V1')], ['A+ V1.filament+']);
    expect(directCurrent(circuit).filaments[0]).toMatchObject({ volts: 0, amperes: 0 });
  });

  it('out of its socket is not listed', () => {
    const circuit = setOf(
      [storage(), tube('V1'), tube('V2')],
      ['A- V1.filament- V2.filament-', 'A+ V1.filament+ V2.filament+'],
    );
    const without = directCurrent(circuit).solveWithout(['V1']);
    expect(without.filaments.map(({ tube: name }) => name)).toEqual(['V2']);
  });
});

describe('a rheostat with no setting', () => {
  // The resistance that brings one filament to its rating: (E - V) / I.
  it.each([
    ['01-A', 5, 0.25, 6, 4],
    ['99', 3.3, 0.063, 4.5, 19.05],
    ['11', 1.1, 0.25, 1.5, 1.6],
    ['22', 3.3, 0.132, 6, 20.45],
    ['30', 2, 0.06, 3, 16.67],
  ])('for one %s is found', (name, volts, amperes, supply, expected) => {
    const circuit = setOf(
      [
        stiff('A', { 'A-': 0, 'A+': supply }),
        ohms('rheostat', 'RH1', 30),
        tube('V1', filamentType(name, volts, amperes)),
      ],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const solved = directCurrent(circuit);
    expect(solved.filaments[0]?.volts).toBeCloseTo(volts, 5);
    expect(solved.controls[0]).toMatchObject({ part: 'RH1', outcome: 'rated' });
    expect(Math.abs((solved.controls[0]?.ohms ?? 0) - expected)).toBeLessThan(0.01);
  });

  const five = setOf(
    [storage(0.02), ohms('rheostat', 'RH1', 6), ...[1, 2, 3, 4, 5].map((n) => tube(`V${n}`))],
    [
      'A- RH1.start',
      `RH1.finish ${[1, 2, 3, 4, 5].map((n) => `V${n}.filament-`).join(' ')}`,
      `A+ ${[1, 2, 3, 4, 5].map((n) => `V${n}.filament+`).join(' ')}`,
    ],
  );

  it('for five 01-A on six volts comes to 0.8 ohm with the battery', () => {
    expect(directCurrent(five).controls[0]?.ohms).toBeCloseTo(0.78, 5);
  });

  it('five quarter-ampere tubes on one rheostat: pulling four raises the last', () => {
    const alone = directCurrent(five).solveWithout(['V1', 'V2', 'V3', 'V4']).filaments[0];
    // 6 V over 0.8 + 20 ohms, times 20.
    expect(alone?.volts).toBeCloseTo(120 / 20.8, 5);
  });

  it('five 99s on six volts: pulling four raises the last by a half and more', () => {
    const names = [1, 2, 3, 4, 5].map((n) => `V${n}`);
    const circuit = setOf(
      [storage(), ohms('rheostat', 'RH1', 30), ...names.map((name) => tube(name, type99))],
      [
        'A- RH1.start',
        `RH1.finish ${names.map((name) => `${name}.filament-`).join(' ')}`,
        `A+ ${names.map((name) => `${name}.filament+`).join(' ')}`,
      ],
    );
    const alone = directCurrent(circuit).solveWithout(names.slice(1)).filaments[0];
    // (6 - 3.3) / 0.315 = 8.571 ohms; 6 V over 8.571 + 52.38 ohms, times 52.38: 5.156 V, +56 %.
    expect((alone?.volts ?? 0) / 3.3).toBeCloseTo(1.5625, 3);
  });

  it('one behind another: the nearer does the work, the master stands full on', () => {
    const circuit = setOf(
      [
        storage(),
        ohms('rheostat', 'RH0', 6),
        ohms('rheostat', 'RH1', 30),
        ohms('rheostat', 'RH2', 60),
        tube('V1'),
        tube('V2', type99),
      ],
      [
        'A- RH0.start',
        'RH0.finish RH1.start RH2.start',
        'RH1.finish V1.filament-',
        'RH2.finish V2.filament-',
        'A+ V1.filament+ V2.filament+',
      ],
    );
    const solved = directCurrent(circuit);
    expect(solved.controls.map(({ part: name, outcome }) => [name, outcome])).toEqual([
      ['RH0', 'full-on'],
      ['RH1', 'rated'],
      ['RH2', 'rated'],
    ]);
    expect(solved.filaments.map((filament) => filament.volts?.toFixed(4))).toEqual([
      '5.0000',
      '3.3000',
    ]);
  });

  it('behind a long lead is found with the lead counted', () => {
    const circuit = setOf(
      [storage(), ohms('lead', 'W1', 0.4), ohms('rheostat', 'RH1', 20), tube('V1'), tube('V2')],
      [
        'A- W1.start',
        'W1.finish RH1.start',
        'RH1.finish V1.filament- V2.filament-',
        'A+ V1.filament+ V2.filament+',
      ],
    );
    const solved = directCurrent(circuit);
    // 1 V at half an ampere is 2 ohms, less the lead and the battery.
    expect(solved.controls[0]?.ohms).toBeCloseTo(2 - 0.4 - 0.001, 5);
  });

  it('in the positive lead is found as well', () => {
    const circuit = setOf(
      [storage(), ohms('rheostat', 'RH1', 20), tube('V1')],
      ['A+ RH1.start', 'RH1.finish V1.filament+', 'A- V1.filament-'],
    );
    expect(directCurrent(circuit).filaments[0]?.volts).toBeCloseTo(5, 5);
  });

  it('on a battery too weak is full on, and says so', () => {
    const circuit = setOf(
      [stiff('A', { 'A-': 0, 'A+': 4.5 }), ohms('rheostat', 'RH1', 20), tube('V1')],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(directCurrent(circuit).controls[0]).toMatchObject({ ohms: 0, outcome: 'below' });
  });

  it('too small for its tube has all its wire in, and says so', () => {
    const circuit = setOf(
      [storage(), ohms('rheostat', 'RH1', 6), tube('V1', type99)],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(directCurrent(circuit).controls[0]).toMatchObject({ travel: 1, outcome: 'above' });
  });

  it('of a size that nobody says is found, and the size is listed as taken', () => {
    const circuit = setOf(
      [storage(), part('rheostat', 'RH1'), tube('V1')],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const solved = directCurrent(circuit);
    expect(solved.filaments[0]?.volts).toBeCloseTo(5, 5);
    expect(solved.assumed.map(({ part: name }) => name)).toContain('RH1');
  });

  it('drawn at its off stop is found as if on', () => {
    const circuit = setOf(
      [
        storage(),
        ohms('rheostat', 'RH1', 20, { setting: { kind: 'off', place: nowhere } }),
        tube('V1'),
      ],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(directCurrent(circuit).filaments[0]?.volts).toBeCloseTo(5, 5);
  });

  it('with tubes of two ratings behind it harms neither', () => {
    const circuit = setOf(
      [storage(), ohms('rheostat', 'RH1', 30), tube('V1'), tube('V2', type99)],
      ['A- RH1.start', 'RH1.finish V1.filament- V2.filament-', 'A+ V1.filament+ V2.filament+'],
    );
    const volts = directCurrent(circuit).filaments.map((filament) => filament.volts);
    expect(volts[1]).toBeCloseTo(3.3, 5);
  });

  it('across a winding lights nothing and keeps all its wire', () => {
    const circuit = setOf(
      [storage(), ohms('rheostat', 'RH9', 400), ohms('winding', 'L1', 3), tube('V1')],
      ['A- V1.filament- L1.start RH9.start', 'A+ V1.filament+', 'L1.finish RH9.finish V1.grid'],
    );
    expect(directCurrent(circuit).controls).toEqual([
      { part: 'RH9', ohms: 400, travel: 1, outcome: 'no-filament' },
    ]);
  });
});

describe('a ballast', () => {
  it('passes the current it is made for', () => {
    const circuit = setOf(
      [
        storage(),
        part('ballast', 'BL1', { values: { ratedCurrent: value(0.25, 'current') } }),
        tube('V1'),
      ],
      ['A+ BL1.start', 'BL1.finish V1.filament+', 'A- V1.filament-'],
    );
    const solved = directCurrent(circuit);
    expect(solved.filaments[0]?.amperes).toBeCloseTo(0.25, 5);
    expect(solved.controls[0]?.ohms).toBeCloseTo(4, 2);
  });
});

describe('bias', () => {
  const parts = [
    storage(),
    stiff('C', { 'C+': 0, 'C-4.5': -4.5 }),
    ohms('rheostat', 'RH1', 20),
    ohms('winding', 'T1.secondary', 5200),
    tube('V1'),
  ];
  const wires = [
    'A- C+ RH1.start',
    'RH1.finish V1.filament-',
    'A+ V1.filament+',
    'C-4.5 T1.secondary.start',
    'T1.secondary.finish V1.grid',
  ];

  it('is that of the C battery and of the rheostat together, counted from filament-', () => {
    const solved = directCurrent(setOf(parts, wires));
    // The rheostat lifts filament- by the volt that it takes.
    expect(solved.voltage('V1.grid', 'V1.filament-')).toBeCloseTo(-5.5, 3);
  });

  it('of a grid behind a condenser is not known, and not 0', () => {
    const circuit = setOf(
      [storage(), part('condenser', 'C4'), tube('V1')],
      ['A- V1.filament- C4.start', 'A+ V1.filament+', 'C4.finish V1.grid'],
    );
    expect(directCurrent(circuit).voltage('V1.grid', 'V1.filament-')).toBeUndefined();
  });

  it('at the arm of a potentiometer across the filament goes by where it stands', () => {
    const pot = ohms('potentiometer', 'P1', 400, {
      setting: { kind: 'fraction', fraction: 0.25, place: nowhere },
    });
    const circuit = setOf(
      [storage(), pot, tube('V1')],
      ['A- V1.filament- P1.start', 'A+ V1.filament+ P1.finish', 'P1.arm V1.grid'],
    );
    expect(directCurrent(circuit).voltage('V1.grid', 'V1.filament-')).toBeCloseTo(1.5, 3);
  });
});

describe('voltages', () => {
  it('between two batteries that nothing joins are not known', () => {
    const circuit = setOf([storage(), stiff('B', { 'B-': 0, 'B+45': 45 })], []);
    const solved = directCurrent(circuit);
    expect(solved.voltage('B.B+45', 'A.A-')).toBeUndefined();
    expect(solved.voltage('B.B+45', 'B.B-')).toBe(45);
  });

  it('of a terminal that does not exist are not known', () => {
    expect(directCurrent(setOf([storage()], [])).voltage('X', 'A.A-')).toBeUndefined();
  });

  it('of a tap that says no volts are not known, and everything else is', () => {
    const circuit = setOf(
      [storage(), battery('B', { 'B-': 0, 'B+DET': undefined }), tube('V1')],
      ['A- B- V1.filament-', 'A+ V1.filament+', 'B+DET V1.plate'],
    );
    const solved = directCurrent(circuit);
    expect(solved.voltage('V1.plate', 'A.A-')).toBeUndefined();
    expect(solved.voltage('A.A+', 'A.A-')).toBeCloseTo(6, 2);
    expect(solved.failures).toEqual([]);
  });

  it('that hang on a tap of unknown volts are not known, and the tap is named', () => {
    const circuit = setOf(
      [battery('B', { 'B-': 0, 'B+DET': undefined }), ohms('resistor', 'R1', 1000)],
      ['B- R1.start', 'B+DET R1.finish'],
    );
    const solved = directCurrent(circuit);
    expect(solved.voltage('R1.start', 'R1.finish')).toBeUndefined();
    expect(solved.failures).toEqual([
      { junction: 'B+DET', why: 'the volts of B.B+DET are not known' },
    ]);
  });

  it("of an eliminator's tap are those without load", () => {
    const eliminator = battery(
      'E',
      { 'B-': 0, 'B+45': 45 },
      {
        kind: 'eliminator',
        supplyTaps: [
          {
            end: 'B-',
            volts: 0,
            said: undefined,
            resistance: undefined,
            atLoad: undefined,
            place: nowhere,
          },
          {
            end: 'B+45',
            volts: 45,
            said: undefined,
            resistance: 20e3,
            atLoad: 1e-3,
            place: nowhere,
          },
        ],
      },
    );
    expect(directCurrent(setOf([eliminator], [])).voltage('E.B+45', 'E.B-')).toBeCloseTo(65, 9);
  });
});

describe('currents', () => {
  const circuit = setOf(
    [
      storage(),
      stiff('B', { 'B-': 0, 'B+90': 90 }),
      onOff('S1', 'open'),
      tube('V1'),
      tube('V2'),
      ohms('resistor', 'R9', 9000),
      part('condenser', 'C1'),
    ],
    [
      'A- B- S1.start',
      'S1.finish V1.filament- V2.filament-',
      'A+ V1.filament+ V2.filament+',
      'B+90 R9.start C1.start',
      'R9.finish C1.finish B-',
    ],
  );

  it('of a switch without resistance is that of the filaments behind it', () => {
    expect(directCurrent(circuit).through('S1')).toBeCloseTo(-0.6, 3);
  });

  it('of a battery is what its tap gives', () => {
    const solved = directCurrent(circuit);
    expect(solved.drains.map(({ supply, tap }) => [supply, tap])).toEqual([
      ['A', 'A+'],
      ['B', 'B+90'],
    ]);
    expect(solved.drains[0]?.amperes).toBeCloseTo(0.6, 3);
    expect(solved.drains[1]?.amperes).toBeCloseTo(0.01, 6);
  });

  it('of a condenser is none', () => {
    expect(directCurrent(circuit).through('C1')).toBe(0);
  });

  it('of a battery shorted by wire is all that its resistance lets through', () => {
    const shorted = setOf([storage(0.02)], ['A- A+']);
    expect(directCurrent(shorted).drains[0]?.amperes).toBeCloseTo(300, 6);
  });

  it('of two switches side by side cannot be told', () => {
    const both = setOf(
      [storage(), onOff('S1', 'closed'), onOff('S2', 'closed'), tube('V1')],
      ['A- S1.start S2.start', 'S1.finish S2.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(directCurrent(both).through('S1')).toBeUndefined();
  });
});

describe('what the text does not say', () => {
  it('of batteries is taken and listed where current flows', () => {
    const circuit = setOf(
      [
        battery('A', { 'A-': 0, 'A+': 6 }, { words: new Set(['storage']) }),
        battery('B', { 'B-': 0, 'B+45': 45 }),
        tube('V1'),
      ],
      ['A- B- V1.filament-', 'A+ V1.filament+', 'B+45 V1.plate'],
    );
    expect(directCurrent(circuit).assumed).toEqual([
      { part: 'A', ohms: 0.02, because: 'a usual storage battery' },
    ]);
  });

  it('or says wrong gives no number that is none', () => {
    const bad = [Number.NaN, Number.NEGATIVE_INFINITY, -5, 1e308, 1e-308, Number.POSITIVE_INFINITY];
    for (const amount of bad) {
      const circuit = setOf(
        [storage(), ohms('resistor', 'R1', amount), ohms('resistor', 'R2', 5), tube('V1')],
        ['A- R1.start R2.start', 'R1.finish R2.finish V1.filament-', 'A+ V1.filament+'],
      );
      const solved = directCurrent(circuit);
      const volts = solved.voltage('V1.filament+', 'V1.filament-');
      expect([amount, Number.isNaN(volts)]).toEqual([amount, false]);
      expect([amount, Number.isNaN(solved.through('R1'))]).toEqual([amount, false]);
    }
  });
});

describe('a network at random', () => {
  it('agrees with dense Gaussian elimination', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const pick = numbers(seed);
      const count = 3 + pick(12);
      const names = ['A-', 'A+', ...Array.from({ length: count }, (_, n) => `X${n}`)];
      const resistors = Array.from({ length: 3 * count }, (_, n) => ({
        name: `R${n}`,
        from: pick(names.length),
        to: n < names.length - 1 ? n + 1 : pick(names.length),
        amount: 1 + pick(1000),
      }));
      // The first ones tie every junction to an earlier one, so that nothing floats.
      for (const [n, each] of resistors.entries())
        if (n < names.length - 1) each.from = pick(each.to);
      const circuit = setOf(
        [
          battery('A', { 'A-': 0, 'A+': 6 }, { values: { resistance: value(0.5, 'resistance') } }),
          ...names.slice(2).map((name) => part('post', name)),
          ...resistors.map(({ name, amount }) => ohms('resistor', name, amount)),
        ],
        resistors.flatMap(({ name, from, to }) => [
          `${name}.start ${names[from]}`,
          `${name}.finish ${names[to]}`,
        ]),
      );
      const size = names.length - 1;
      const rows = Array.from({ length: size }, () => new Array<number>(size).fill(0));
      const right = new Array<number>(size).fill(0);
      const add = (a: number, b: number, siemens: number): void => {
        if (a === b) return;
        if (a > 0) rows[a - 1]![a - 1]! += siemens;
        if (b > 0) rows[b - 1]![b - 1]! += siemens;
        if (a > 0 && b > 0) {
          rows[a - 1]![b - 1]! -= siemens;
          rows[b - 1]![a - 1]! -= siemens;
        }
      };
      for (const { from, to, amount } of resistors) add(from, to, 1 / amount);
      add(0, 1, 1 / 0.5);
      right[0] = 6 / 0.5;
      const dense = gaussian(rows, right);
      const solved = directCurrent(circuit);
      for (const [index, name] of names.slice(1).entries()) {
        const id = index === 0 ? 'A.A+' : name;
        expect(solved.voltage(id, 'A.A-')).toBeCloseTo(dense[index]!, 9);
      }
    }
  });
});

describe('rheostats at random', () => {
  it('come to stand right, or at a stop', () => {
    const types = [
      filamentType('01-A', 5, 0.25),
      type99,
      filamentType('12', 1.1, 0.25),
      filamentType('30', 2, 0.06),
    ];
    const seen = new Set<string>();
    for (let seed = 1; seed <= 300; seed++) {
      const pick = numbers(seed * 7919);
      const choose = <T>(from: readonly T[]): T => from[pick(from.length)]!;
      const resistance = value(choose([0.001, 0.3, 0.9, 3]), 'resistance');
      const parts = [
        battery('A', { 'A-': 0, 'A+': choose([6, 4.5, 3, 1.5]) }, { values: { resistance } }),
        ohms('lead', 'W', choose([0.05, 0.4])),
      ];
      const wires = ['A- W.start'];
      const hasMaster = pick(2) === 0;
      if (hasMaster) {
        parts.push(ohms('rheostat', 'RM', 6));
        wires.push('A+ RM.start');
      }
      const positive = hasMaster ? 'RM.finish' : 'A+';
      for (let group = 1 + pick(4); group > 0; group--) {
        parts.push(ohms('rheostat', `RH${group}`, choose([6, 20, 30, 60])));
        wires.push(`W.finish RH${group}.start`);
        if (pick(4) === 0) {
          parts.push(ohms('rheostat', `RV${group}`, 2));
          wires.push(`RV${group}.start RH${group}.start`, `RV${group}.finish RH${group}.finish`);
        }
        for (let n = 1 + pick(4); n > 0; n--) {
          const name = `V${group}${n}`;
          parts.push(tube(name, choose(types)));
          wires.push(`${positive} ${name}.filament+`, `RH${group}.finish ${name}.filament-`);
        }
      }
      const { controls, failures } = directCurrent(setOf(parts, wires));
      for (const { outcome } of controls) seen.add(outcome);
      expect([seed, failures]).toEqual([seed, []]);
    }
    expect([...seen].sort()).toEqual(['above', 'below', 'full-on', 'rated']);
  });
});

describe('a set of a thousand stages', () => {
  it('is reckoned in a second, rheostats and all', () => {
    const stages = Array.from({ length: 1000 }, (_, index) => index);
    const circuit = setOf(
      [
        storage(1e-5),
        stiff('B', { 'B-': 0, 'B+90': 90 }),
        onOff('S1', 'open'),
        ...stages.flatMap((n) => [
          tube(`V${n}`),
          ohms('rheostat', `RH${n}`, 20),
          ohms('winding', `T${n}.primary`, 800),
          ohms('winding', `T${n}.secondary`, 5200),
          part('condenser', `C${n}`),
        ]),
      ],
      [
        'A- B- S1.start',
        ...stages.flatMap((n) => [
          `S1.finish RH${n}.start`,
          `RH${n}.finish V${n}.filament-`,
          `A+ V${n}.filament+`,
          `B+90 T${n}.primary.start`,
          `T${n}.primary.finish V${n}.plate C${n}.start`,
          `S1.finish T${n}.secondary.start`,
          `T${n}.secondary.finish V${n}.grid`,
        ]),
      ],
    );
    const solved = directCurrent(circuit);
    expect(solved.filaments).toHaveLength(1000);
    for (const filament of solved.filaments) expect(filament.volts).toBeCloseTo(5, 4);
  });
});
