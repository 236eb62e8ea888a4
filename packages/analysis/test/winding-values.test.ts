import { singleLayerInductance, wheeler1928Inductance } from '@setwright/physics';
import { describe, expect, it } from 'vitest';
import { coilMatrix, singleInductor, type WindingValues, windingLoss } from '../src/index.ts';
import { missingOf } from '../src/value-because.ts';
import { setFrom } from './reading-set.ts';

const INCH = 0.0254;

/** The windings of a coil by their own names. */
function windings(...lines: readonly string[]) {
  const matrix = coilMatrix(setFrom(...lines), 'L1');
  return new Map(matrix?.windings.map((each) => [each.part.name.slice(3), each]));
}

const grid = windings('coil L1 {', 'form 2 3/4 in', 'winding grid 58 turns of 26 DCC', '}').get(
  'grid',
);

describe('58 turns of 26 DCC on 2 3/4 in', () => {
  it('have the inductance of the closed form for wire at 41.8 turns to the inch', () => {
    // Turns to the inch from the copper wire table of the amateur handbooks (from memory); form
    // and half a wire on either side; 26 B&S is 15.94 mil. NBS Circular 74, sections 66 and 67.
    const pitch = INCH / 41.8;
    const coil = {
      turns: 58,
      radius: (2.75 * INCH + pitch) / 2,
      pitch,
      wireDiameter: 0.01594 * INCH,
    };
    expect(grid?.inductance.value).toBeCloseTo(singleLayerInductance(coil) ?? 0, 9);
  });

  it('agree with the short formula of 1928 within 1 %', () => {
    // H. A. Wheeler, Proc. IRE 16 (1928) 1398 (from memory): length above 0.8 radius.
    const short = wheeler1928Inductance(58, 1.387 * INCH, (58 / 41.8) * INCH) ?? 0;
    expect((grid?.inductance.value ?? 0) / short).toBeGreaterThan(0.99);
    expect((grid?.inductance.value ?? 0) / short).toBeLessThan(1.01);
  });

  it('have the ohms of 42 feet of that wire', () => {
    // 40.81 ohms to 1000 feet at 20 °C: NBS Circular 31 (1914), from memory and computed.
    const feet = (58 * Math.PI * (2.75 + 1 / 41.8)) / 12;
    expect(grid?.resistance.value).toBeCloseTo((40.81 * feet) / 1000, 2);
  });

  it('say what they were reckoned from, in the author\u2019s own words', () => {
    const because = grid?.inductance.value === undefined ? undefined : grid.inductance.because;
    expect(because?.facts.map(({ text }) => text)).toEqual(['58 turns', '26 DCC', '2 3/4 in']);
    expect(because?.assumed).toEqual(['close-wound in one layer (length not said)']);
    expect(because?.source).toContain('Circular 74');
  });

  it('have a Q that no usual coil exceeds', () => {
    // Hund & De Groot, BS Technologic Paper 298 (1925), measured broadcast coils (abstract); the
    // wire alone is better than any of them: 150 to 350 is common practice.
    const q = grid ? windingLoss(grid, 1e6).q.value : undefined;
    expect(q).toBeGreaterThan(150);
    expect(q).toBeLessThan(350);
  });
});

describe('a winding', () => {
  it('by stated values has those, whatever its make', () => {
    const said = windings('coil L1 {', 'winding grid 240 uH 6 ohms', '}').get('grid');
    expect(said?.inductance.value).toBeCloseTo(240e-6, 12);
    expect(said?.resistance.value).toBe(6);
  });

  it('without turns says that they are missing', () => {
    const bare = windings('coil L1 {', 'form 3 in', 'winding grid', '}').get('grid');
    expect(missingOf(bare?.inductance ?? { value: undefined, missing: [] })).toContain(
      'the turns of L1.grid',
    );
  });

  it('spaced out over a longer length has less inductance', () => {
    const make = (more: string) =>
      windings('coil L1 {', 'form 3 in', `winding grid 40 turns of 24 DCC ${more}`, '}').get('grid')
        ?.inductance.value ?? 0;
    expect(make('length 2 in')).toBeLessThan(make(''));
  });

  it('in layers loses far more than at direct current, and more than in one layer', () => {
    // Measured coils of the time in many layers have a Q of some 50 to 150: common practice.
    const q = (length: string) => {
      const grid = windings(
        'coil L1 {',
        'form 2 in',
        `winding grid 50 turns of 24 DCC ${length}`,
        '}',
      ).get('grid');
      const loss = grid && windingLoss(grid, 1e6);
      return { q: loss?.q.value ?? 0, ohms: loss?.resistance.value ?? 0, grid };
    };
    const flat = q('length 1/16 in');
    expect(flat.q).toBeGreaterThan(30);
    expect(flat.q).toBeLessThan(150);
    expect(flat.ohms).toBeGreaterThan(5 * (flat.grid?.resistance.value ?? 1));
    expect(flat.q).toBeLessThan(q('').q);
  });

  it('in layers says that its losses are not very sure', () => {
    const bank = windings(
      'coil L1 {',
      'form 2 in',
      'winding grid 100 turns of 26 DCC length 1 in',
      '}',
    );
    const grid = bank.get('grid');
    const { resistance } = windingLoss(grid as WindingValues, 1e6);
    expect(resistance.value === undefined ? 0 : resistance.because.relativeError).toBeGreaterThan(
      0.3,
    );
  });

  it('that does not fit into its length in one layer is taken to lie in several', () => {
    const bank = windings(
      'coil L1 {',
      'form 2 in',
      'winding grid 100 turns of 26 DCC length 1 in',
      '}',
    ).get('grid');
    const because = bank?.inductance.value === undefined ? undefined : bank.inductance.because;
    expect(because?.assumed.join()).toContain('3 layers');
    // The short formula for many layers, 0.8a²N²/(6a + 9b + 10c), good to 25 % for so thin a
    // section: Wheeler 1928 (from memory).
    const c = 3 / 41.8;
    const a = 1 + c / 2;
    const short = (0.8e-6 * (a * 100) ** 2) / (6 * a + 9 * (100 / 3 / 41.8) + 10 * c);
    expect((bank?.inductance.value ?? 0) / short).toBeGreaterThan(0.8);
    expect((bank?.inductance.value ?? 0) / short).toBeLessThan(1.25);
  });
});

describe('iron', () => {
  const matrix = coilMatrix(
    setFrom(
      'transformer T1 ratio 1 to 3.5 {',
      'winding primary 14 H 800 ohms',
      'winding secondary 5200 ohms centre',
      '}',
    ),
    'T1',
  );

  it('steps inductance up by the square of the ratio', () => {
    expect(matrix?.windings[1]?.inductance.value).toBeCloseTo(14 * 3.5 ** 2, 9);
  });

  it('couples all but a stated leakage', () => {
    const [pair] = matrix?.couplings ?? [];
    expect(pair?.coefficient.value).toBeCloseTo(Math.sqrt(0.98), 6);
    const because = pair?.mutual.value === undefined ? undefined : pair.mutual.because;
    expect(because?.assumed.join()).toContain('leakage of 2 %');
  });

  it('couples the halves of a centre-tapped winding as closely', () => {
    const henries = matrix?.henries ?? [];
    const half = henries[1]?.[1] ?? 0;
    expect((henries[1]?.[2] ?? 0) / half).toBeCloseTo(Math.sqrt(0.98), 6);
    expect(2 * half + 2 * (henries[1]?.[2] ?? 0)).toBeCloseTo(14 * 3.5 ** 2, 6);
  });

  it('without a stated inductance says so', () => {
    const lost = coilMatrix(
      setFrom('transformer T1 ratio 1 to 3 {', 'winding primary', 'winding secondary', '}'),
      'T1',
    );
    expect(lost?.henries).toBeUndefined();
    expect(lost?.missing).toContain('the inductance of T1.primary');
  });
});

describe('a part that is one winding', () => {
  it('phones of 2000 ohms have 5 times that at 1000 cycles', () => {
    // Impedance 4 to 6 times the direct-current ohms: common practice (from memory).
    const part = setFrom('phones PH1 2000 ohms').partNamed.get('PH1');
    const henries = (part && singleInductor(part)?.inductance.value) ?? 0;
    expect(Math.hypot(2000, 2 * Math.PI * 1000 * henries)).toBeCloseTo(10_000, 3);
  });

  it('a variometer set at its least has its least inductance', () => {
    const part = setFrom('variometer L1 50 uH to 450 uH set 0 %').partNamed.get('L1');
    expect((part && singleInductor(part)?.inductance.value) ?? 0).toBeCloseTo(50e-6, 12);
  });
});
