import { mutualOfTurns, turnsOf } from '@setwright/physics';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CoilMatrix, coilMatrix } from '../src/index.ts';
import { isPositiveSemidefinite } from '../src/positive-semidefinite.ts';
import { setFrom } from './reading-set.ts';

function matrixOf(...lines: readonly string[]): CoilMatrix {
  const matrix = coilMatrix(setFrom('coil L1 {', ...lines, '}'), 'L1');
  if (!matrix) throw new Error('no coil');
  return matrix;
}

/** Microhenries of sections in series, each passed forwards (1) or backwards (-1). */
function series({ henries }: CoilMatrix, signs: readonly number[]): number {
  let sum = 0;
  for (const [row, line] of (henries ?? []).entries())
    for (const [column, entry] of line.entries())
      sum += (signs[row] ?? 0) * (signs[column] ?? 0) * entry;
  return sum * 1e6;
}

const two = (more = '') => [
  'form 3 in',
  'winding first 30 turns of 24 DCC',
  `winding second 30 turns of 24 DCC beside first spaced 1/4 in ${more}`,
];

describe('two windings side by side', () => {
  it('couple as the sum over every pair of turns says', () => {
    // Maxwell's coaxial circles, turn by turn: Treatise, article 701.
    const matrix = matrixOf(...two());
    const [first, second] = matrix.windings.map((each) => each.shape?.winding);
    const turns = [first, second].map((each) => (each && turnsOf(each)) ?? []);
    const sum = mutualOfTurns(turns[0] ?? [], turns[1] ?? []) ?? 0;
    expect((matrix.henries?.[0]?.[1] ?? 0) / sum).toBeCloseTo(1, 3);
  });

  it('in series aiding less opposing give four times their mutual inductance', () => {
    // M = (La - Lo)/4: Circular 74 on the measurement of mutual inductance (from memory).
    const matrix = matrixOf(...two());
    const mutual = 1e6 * (matrix.couplings[0]?.mutual.value ?? 0);
    expect(mutual).toBeGreaterThan(0);
    expect((series(matrix, [1, 1]) - series(matrix, [1, -1])) / 4).toBeCloseTo(mutual, 6);
  });

  it('of which one is reversed oppose from start to finish', () => {
    const plain = matrixOf(...two()).couplings[0]?.mutual.value ?? 0;
    const turned = matrixOf(...two('reversed')).couplings[0]?.mutual.value ?? 0;
    expect(turned).toBeCloseTo(-plain, 12);
  });

  it('couple less the further they stand apart', () => {
    const near = matrixOf(...two()).couplings[0]?.coefficient.value ?? 0;
    const far = matrixOf(
      'form 3 in',
      'winding first 30 turns of 24 DCC',
      'winding second 30 turns of 24 DCC beside first spaced 1 in',
    ).couplings[0]?.coefficient.value;
    expect(far).toBeGreaterThan(0);
    expect(far).toBeLessThan(near);
  });

  it('with no space told stand an eighth of an inch apart, and that is said', () => {
    const pair = matrixOf(
      'form 3 in',
      'winding first 30 turns of 24 DCC',
      'winding second 30 turns of 24 DCC',
    ).couplings[0]?.mutual;
    expect(pair?.value === undefined ? [] : pair.because.assumed).toContain(
      'L1.second stands beside L1.first, a space of 1/8 in between them',
    );
  });
});

describe('a winding over another', () => {
  const over = (at: string) =>
    matrixOf(
      'form 3 in',
      'winding grid 51 turns of 26 DCC tap 7',
      `winding plate 7 turns of 30 DSC over grid at ${at} paper 10 mil`,
    );

  it('at its start couples most with the turns beneath it', () => {
    const [row] = over('start').henries?.slice(2) ?? [];
    const perTurn = [(row?.[0] ?? 0) / 7, (row?.[1] ?? 0) / 44];
    expect(perTurn[0]).toBeGreaterThan(2 * (perTurn[1] ?? 0));
  });

  it('at either end couples with the whole alike, in the middle more', () => {
    const k = (at: string) => over(at).couplings[0]?.coefficient.value ?? 0;
    // The tap cuts the sum differently at either end: the fast routine is good to 0.2 %.
    expect(k('start')).toBeCloseTo(k('finish'), 3);
    expect(k('centre')).toBeGreaterThan(k('start'));
  });
});

describe('a tickler inside a winding', () => {
  const tuner = [
    'form 3 in',
    'winding grid 46 turns of 24 DCC',
    'winding tickler 14 turns of 26 DCC inside grid on form 2 1/4 in',
  ];
  const full = matrixOf(...tuner).couplings[0]?.mutual.value ?? 0;

  it.each([
    [10, 0.1],
    [0, 0],
    [-100, -1],
  ])('set to %d %% couples that share of the most it can', (percent, share) => {
    const last = `${tuner[2]} set ${percent} %`;
    const set = matrixOf(tuner[0] ?? '', tuner[1] ?? '', last).couplings[0]?.mutual.value;
    expect(set).toBeCloseTo(share * full, 12);
  });

  it('can be turned without a change of the text', () => {
    const circuit = setFrom('coil L1 {', ...tuner, '}');
    const half = coilMatrix(circuit, 'L1', new Map([['L1.tickler', 0.5]]));
    expect(half?.couplings[0]?.mutual.value).toBeCloseTo(full / 2, 12);
  });
});

describe('taps', () => {
  it('cut an aerial winding into sections that sum to the whole', () => {
    const matrix = matrixOf('form 3 in', 'winding aerial 36 turns of 24 DCC taps 12, 18, 24, 30');
    expect(matrix.sections.map(({ from }) => from)).toEqual([
      'L1.aerial.start',
      'L1.aerial.tap12',
      'L1.aerial.tap18',
      'L1.aerial.tap24',
      'L1.aerial.tap30',
    ]);
    const whole = 1e6 * (matrix.windings[0]?.inductance.value ?? 0);
    expect(series(matrix, [1, 1, 1, 1, 1])).toBeCloseTo(whole, 6);
  });

  it('leave each section the inductance of a coil of its own turns', () => {
    const matrix = matrixOf('form 3 in', 'winding aerial 36 turns of 24 DCC tap 12');
    const alone = matrixOf('form 3 in', 'winding aerial 12 turns of 24 DCC');
    expect(matrix.henries?.[0]?.[0]).toBeCloseTo(alone.henries?.[0]?.[0] ?? 0, 9);
  });

  it('change nothing of how the whole winding couples with another', () => {
    const make = (taps: string) =>
      matrixOf(
        'form 3 in',
        `winding aerial 36 turns of 24 DCC ${taps}`,
        'winding grid 44 turns of 24 DCC beside aerial spaced 1 in',
      ).couplings[0]?.mutual.value ?? 0;
    // The fast routine is good to 0.2 % for sections of few turns.
    expect(make('taps 12, 18, 24, 30') / make('')).toBeCloseTo(1, 3);
  });
});

describe('stated coupling', () => {
  it('is the mutual inductance over the geometric mean', () => {
    const matrix = matrixOf(
      'winding first 100 uH 2 ohms',
      'winding second 400 uH 8 ohms tap 50 %',
      'coupling first with second .3',
    );
    expect(1e6 * (matrix.couplings[0]?.mutual.value ?? 0)).toBeCloseTo(60, 6);
  });

  it('that no coil can have is cut down until one can, and that is said', () => {
    // Two that go with the first almost wholly cannot go against each other.
    const matrix = matrixOf(
      'winding a 100 uH 2 ohms',
      'winding b 100 uH 2 ohms',
      'winding c 100 uH 2 ohms reversed',
      'coupling a with b .9',
      'coupling a with c -.9',
      'coupling b with c .9',
    );
    expect(matrix.kept).toBeLessThan(1);
    expect(isPositiveSemidefinite(matrix.henries ?? [])).toBe(true);
    const { mutual } = matrix.couplings[0] ?? {};
    expect(mutual?.value === undefined ? '' : mutual.because.assumed.join()).toContain(
      'contradict',
    );
  });

  it('where neither it nor a place is known is missing', () => {
    const matrix = matrixOf('winding first 100 uH 2 ohms', 'winding second 400 uH 8 ohms');
    expect(matrix.henries).toBeUndefined();
    expect(matrix.missing).toEqual([
      'where L1.first and L1.second lie, or how closely they couple',
    ]);
  });
});

describe('any coil', () => {
  const winding = fc.record({
    turns: fc.integer({ min: 2, max: 80 }),
    gauge: fc.constantFrom('24 DCC', '26 DCC', '28 DSC', '30 enamel'),
    place: fc.constantFrom('beside', 'over', 'inside'),
    at: fc.constantFrom('start', 'finish', 'centre'),
    gap: fc.integer({ min: 1, max: 16 }),
    reversed: fc.boolean(),
    tap: fc.option(fc.double({ min: 0.1, max: 0.9, noNaN: true })),
    set: fc.option(fc.integer({ min: -100, max: 100 })),
  });

  const amperes = fc.double({ min: -1, max: 1, noNaN: true });
  const currents = fc.array(amperes, { minLength: 8, maxLength: 8 });

  it('stores no less than no energy for any currents', () => {
    fc.assert(
      fc.property(fc.array(winding, { minLength: 1, maxLength: 4 }), currents, (windings, flow) => {
        const lines = windings.map((each, index) => {
          const { turns, gauge, place, at, gap, reversed, tap, set } = each;
          const other = `w${index - 1}`;
          const beside = `beside ${other} spaced ${gap}/16 in`;
          const over = `over ${other} at ${at} paper ${gap} mil`;
          const inside = `inside ${other}${set === null ? '' : ` set ${set} %`}`;
          const where =
            index === 0 ? '' : place === 'beside' ? beside : place === 'over' ? over : inside;
          const at1 = tap === null ? 0 : Math.round(tap * turns);
          const taps = at1 > 0 && at1 < turns ? `tap ${at1}` : '';
          const way = reversed ? 'reversed' : '';
          return `winding w${index} ${turns} turns of ${gauge} ${taps} ${where} ${way}`;
        });
        const { henries, kept } = matrixOf('form 3 in', ...lines);
        let energy = 0;
        for (const [row, line] of (henries ?? [[Number.NaN]]).entries())
          for (const [column, entry] of line.entries())
            energy += (flow[row] ?? 0) * (flow[column] ?? 0) * entry;
        expect(energy).toBeGreaterThanOrEqual(-1e-15);
        expect(isPositiveSemidefinite(henries ?? [[Number.NaN]])).toBe(true);
        // Made of real wire it is so of itself: nothing had to be cut down.
        expect(kept).toBe(1);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a test for positive semidefinite matrices', () => {
  it('passes one with a coupling of just 1 and fails one of more', () => {
    expect(
      isPositiveSemidefinite([
        [1, 10],
        [10, 100],
      ]),
    ).toBe(true);
    expect(
      isPositiveSemidefinite([
        [1, 10.01],
        [10.01, 100],
      ]),
    ).toBe(false);
    expect(isPositiveSemidefinite([[Number.NaN]])).toBe(false);
  });
});
