import { resonanceProduct } from '@setwright/physics';
import { describe, expect, it } from 'vitest';
import { type Reckoned, tunedAt, tunedCircuits } from '../src/index.ts';
import { exampleSets, setFrom } from './reading-set.ts';

const named = (file: string) => {
  const circuit = exampleSets.get(file);
  return new Map((circuit ? tunedCircuits(circuit) : []).map((each) => [each.name, each]));
};

describe('the tuned circuits of the example sets', () => {
  it.each([
    ['crystal', ['L1.secondary']],
    ['dry-cell-portable', ['LP1', 'L1.grid']],
    ['five-tube-trf', ['L1.grid', 'L2.grid', 'L3.grid']],
    ['heater-tubes', ['L1.grid', 'L2.grid', 'L3.grid']],
    ['neutralized-five', ['L1.grid', 'L2.grid', 'L3.grid']],
    ['one-tube-regenerative', ['L1.grid']],
    ['potentiometer-stabilized-trf', ['L1.grid', 'L2.grid', 'L3.grid']],
    ['push-pull', ['L1.grid', 'L2.grid']],
    ['reflex', ['L1.grid', 'L2.secondary']],
    ['resistance-coupled', ['L1.grid', 'L2.grid']],
    ['screen-grid', ['L1.grid', 'L2.grid', 'L3.grid']],
    ['superheterodyne', ['LP1', 'L1.grid']],
    ['two-tube', ['L1.grid']],
  ])('of %s cover the band it states', (file, expected) => {
    const tunes = exampleSets.get(file)?.tunes;
    const tuned = [...named(file).values()].filter(({ tuner }) => tuner !== undefined);
    expect(tuned.map(({ name }) => name)).toEqual(expected);
    for (const { lowest, highest, name } of tuned) {
      // The oscillator of a superheterodyne stands above the band by its intermediate frequency.
      const shift = file === 'superheterodyne' && name === 'L1.grid' ? 45e3 : 0;
      const errorOf = (of: typeof highest) =>
        of.value === undefined ? 0 : (of.because.relativeError ?? 0);
      expect(lowest.value).toBeLessThan((tunes?.low.value ?? 0) + shift);
      expect((highest.value ?? 0) * (1 + errorOf(highest))).toBeGreaterThan(
        (tunes?.high.value ?? Number.POSITIVE_INFINITY) + shift,
      );
    }
  });

  it('of the superheterodyne resonate within 2 % of the 45 kc they state', () => {
    const tuned = named('superheterodyne');
    for (const name of ['T1.secondary', 'T2.secondary', 'T3.secondary']) {
      expect(tuned.get(name)?.stated?.frequency.text).toBe('45 kc');
      expect(Math.abs(tuned.get(name)?.stated?.excess ?? 1)).toBeLessThan(0.02);
    }
  });

  it('with nothing measured say what is missing', () => {
    const grid = named('bare-wiring').get('L1.grid');
    expect(grid?.lowest.value === undefined ? grid?.lowest.missing : []).toEqual([
      'the turns of L1.grid',
      'the wire of L1.grid, or its length',
      'the diameter of the form of L1.grid',
      'the capacity of C1',
    ]);
  });

  it('of a stabilized set close through its grid return bypass', () => {
    expect(named('potentiometer-stabilized-trf').get('L2.grid')?.gang).toBe('G1');
  });
});

const plain = ['post GND ground', 'coil L1 {', 'winding grid 200 uH 4 ohms from GND', '}'];

/** The only tuned circuit of a set. */
function onlyOne(...lines: readonly string[]) {
  const tuned = tunedCircuits(setFrom(...lines));
  expect(tuned).toHaveLength(1);
  return tuned[0];
}

describe('200 microhenries', () => {
  it('and 126.65 mmfd in all resonate at 1000 kc', () => {
    // L in uH times C in uuF is 25330.3 at 1000 kc: NBS Circular 74, wavelength formula.
    // 10 mmfd of wiring are counted in.
    const tuned = onlyOne(...plain, 'condenser C1 variable 50 to 116.6515 mmfd across L1.grid');
    expect(tuned?.lowest.value).toBeCloseTo(1e6, -2);
    expect((resonanceProduct(1e6) ?? 0) * 1e18).toBeCloseTo(25330.3, 1);
  });

  it('at 1000 kc are 299.8 metres', () => {
    const tuned = onlyOne(...plain, 'condenser C1 variable 50 to 116.6515 mmfd across L1.grid');
    // Velocity of light.
    expect(tuned?.longestWave).toBeCloseTo(299.79, 1);
  });

  it('with 4 ohms have a Q of reactance over 4, and that over Q of bandwidth', () => {
    const tuned = onlyOne(...plain, 'condenser C1 variable 14 to 365 mmfd across L1.grid');
    const at = tuned && tunedAt(tuned, 1e6);
    // 1256.637 ohms at 1000 kc: computed, as in the handbooks' reactance tables.
    expect(at?.reactance.value).toBeCloseTo(1256.637, 2);
    expect(at?.q.value).toBeCloseTo(1256.637 / 4, 3);
    expect(at?.bandwidth.value).toBeCloseTo((1e6 * 4) / 1256.637, 1);
    expect(at?.impedance.value).toBeCloseTo(1256.637 ** 2 / 4, -1);
  });

  it('say of the least capacity at the short-wave end and of the most at the long', () => {
    const tuned = onlyOne(...plain, 'condenser C1 variable 14 to 365 mmfd across L1.grid');
    const facts = (of: Reckoned | undefined) =>
      of?.value === undefined
        ? []
        : of.because.facts.map((each) => `${each.meaning}: ${each.text}`);
    for (const least of [tuned?.highest, tuned?.leastCapacity]) {
      expect(facts(least)).toContain('least capacity of C1: 14 mmfd');
      expect(facts(least).join()).not.toContain('most capacity');
    }
    for (const most of [tuned?.lowest, tuned?.mostCapacity]) {
      expect(facts(most)).toContain('most capacity of C1: 365 mmfd');
      expect(facts(most).join()).not.toContain('least capacity');
    }
    expect(facts(tuned?.strays).join()).not.toContain('C1');
  });

  it('say what damps them, and with how many ohms', () => {
    const tuned = exampleSets.get('five-tube-trf');
    const [first] = tuned ? tunedCircuits(tuned) : [];
    const q = first && tunedAt(first, 1e6).loadedQ;
    const because = q?.value === undefined ? undefined : q.because;
    expect(because?.formula).toBe('Q with R1 before the capacity of the grid');
    expect(because?.facts.map(({ text }) => text)).toContain('1500 ohms');
    const across = onlyOne(
      ...plain,
      'condenser C1 variable 14 to 365 mmfd across L1.grid',
      'resistor R1 100 kilohms across L1.grid',
    );
    const other = across && tunedAt(across, 1e6).loadedQ;
    expect(other?.value === undefined ? '' : other.because.formula).toBe('Q with R1 across it');
  });

  it('with 100 kilohms across lose Q by the two in parallel', () => {
    const tuned = onlyOne(
      ...plain,
      'condenser C1 variable 14 to 365 mmfd across L1.grid',
      'resistor R1 100 kilohms across L1.grid',
    );
    const dynamic = 1256.637 ** 2 / 4;
    const both = 1 / (1 / dynamic + 1e-5);
    expect((tuned && tunedAt(tuned, 1e6).impedance.value) ?? 0).toBeCloseTo(both, -1);
  });
});

describe('a tuned circuit', () => {
  it('closes through a bypass of .006 mfd and a battery', () => {
    const tuned = onlyOne(
      'post GND ground',
      'battery C dry {',
      'tap C+',
      'tap C-4.5',
      '}',
      'wire C+ to GND',
      'bus RET',
      'coil L1 {',
      'winding grid 200 uH 4 ohms from RET',
      '}',
      'condenser C2 .006 mfd from RET to C-4.5',
      'condenser C1 variable 14 to 365 mmfd from GND to L1.grid.finish',
    );
    expect(tuned?.name).toBe('L1.grid');
  });

  it('closes through no small condenser as if it were a wire: in series it takes its share', () => {
    const tuned = onlyOne(
      ...plain,
      'condenser C2 .0005 mfd from L1.grid.finish to C1.stator',
      'condenser C1 variable 14 to 500 mmfd rotor to GND',
    );
    // 500 and 500 in series are 250, and 10 of wiring.
    expect((tuned?.mostCapacity.value ?? 0) * 1e12).toBeCloseTo(260, 6);
  });

  it('is damped by a resistance inside it, between coil and condenser', () => {
    const tuned = onlyOne(
      ...plain,
      'resistor R1 600 ohms from L1.grid.finish to C1.stator',
      'condenser C1 variable 14 to 365 mmfd rotor to GND',
    );
    expect(tuned?.inside.map(({ name }) => name)).toEqual(['R1']);
    const q = (tuned && tunedAt(tuned, 1e6).q.value) ?? 0;
    expect(q).toBeCloseTo(1256.637 / 604, 3);
  });

  it('counts a condenser at half way down its coil by the square of its share', () => {
    const tuned = onlyOne(
      'post GND ground',
      'coil L1 {',
      'winding grid 200 uH 4 ohms tap 50 % from GND',
      '}',
      'condenser C1 variable 14 to 365 mmfd across L1.grid',
      'post ANT aerial 200 mmfd',
      'wire ANT to L1.grid.tap50',
    );
    // A quarter of the aerial's 200, and 10 of wiring.
    expect((tuned?.strays.value ?? 0) * 1e12).toBeCloseTo(60, 3);
  });

  it('adds two windings in series with twice their mutual inductance', () => {
    const tuned = onlyOne(
      'post GND ground',
      'coil L1 {',
      'winding first 100 uH 2 ohms from GND',
      'winding second 100 uH 2 ohms from L1.first.finish',
      'coupling first with second .2',
      '}',
      'condenser C1 variable 14 to 365 mmfd from GND to L1.second.finish',
    );
    expect((tuned?.inductance.value ?? 0) * 1e6).toBeCloseTo(240, 6);
    expect(tuned?.name).toBe('L1.first+L1.second');
  });

  it('in a can is less sure of its inductance, which the can lowers', () => {
    const tuned = named('screen-grid');
    const errorOf = (name: string) => {
      const inductance = tuned.get(name)?.inductance;
      return inductance?.value === undefined ? undefined : inductance.because.relativeError;
    };
    expect(errorOf('L1.grid')).toBeGreaterThan(errorOf('L3.grid') ?? 1);
  });

  it('is none for a neutralizing condenser between two grids', () => {
    expect([...named('neutralized-five').values()].map(({ tuner }) => tuner)).toEqual([
      'C1',
      'C2',
      'C3',
    ]);
  });
});
