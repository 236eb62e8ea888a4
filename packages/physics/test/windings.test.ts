import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  couplingCoefficient,
  mutualInductance,
  mutualOfTurns,
  sectionMutualInductance,
  sectionOf,
  selfOfTurns,
  seriesInductance,
  singleLayerInductance,
  stretchInductance,
  type Turn,
  turnedMutualInductance,
  turnOfSetting,
  turnsOf,
  type Winding,
} from '../src/index.ts';
import { INCH, known, relativeError } from './support.ts';

function winding(turns: number, radius: number, pitch: number, position = 0): Winding {
  return {
    turns,
    radius: radius * INCH,
    length: turns * pitch * INCH,
    position: position * INCH,
  };
}

function fullSum(first: Winding, second: Winding, layers = 1): number {
  return known(mutualOfTurns(known(turnsOf(first, layers)), known(turnsOf(second, layers))));
}

const secondary = winding(58, 1.387, 1 / 41.8);

describe('mutual inductance of two windings, against the sum over every pair of turns', () => {
  // Arrangements of sets of the 1920s (common practice); positions in inches.
  it.each([
    ['a primary beside, a quarter inch away', winding(12, 1.387, 1 / 41.8, 1.09)],
    ['a primary over the start, on paper', winding(12, 1.42, 1 / 41.8, -0.55)],
    ['a primary inside on its own form', winding(15, 1.1, 1 / 60, 0.3)],
    ['a tickler half out of the end', winding(20, 1.05, 1 / 60, 0.8)],
    ['a single turn in the middle', winding(1, 1.45, 1 / 41.8, 0.01)],
    ['its twin far away', winding(58, 1.387, 1 / 41.8, 12)],
  ])('%s: within 0.05 %%', (_, primary) => {
    const sum = fullSum(secondary, primary);
    expect(relativeError(mutualInductance(secondary, primary), sum)).toBeLessThan(0.0005);
  });

  it('two four-layer coils end to end: within 1 %', () => {
    const first = { ...winding(80, 1, 1 / 120), depth: 0.2 * INCH };
    const second = { ...first, position: 1.2 * INCH };
    const sum = fullSum(first, second, 4);
    expect(relativeError(mutualInductance(first, second), sum)).toBeLessThan(0.01);
  });

  it('two spiderweb coils face to face: within 1 %', () => {
    const first = { turns: 30, radius: 1.5 * INCH, depth: INCH, length: 0, position: 0 };
    const second = { ...first, turns: 15, position: 0.5 * INCH };
    const sum = known(mutualOfTurns(known(turnsOf(first, 30)), known(turnsOf(second, 15))));
    expect(relativeError(mutualInductance(first, second), sum)).toBeLessThan(0.01);
  });
});

describe('mutual inductance of any windings of one layer a pitch or more apart', () => {
  it('agrees with the sum over every pair of turns within 0.2 %', () => {
    const one = fc.record({
      turns: fc.integer({ min: 1, max: 60 }),
      pitch: fc.double({ min: 3e-4, max: 1.5e-3, noNaN: true }),
      radius: fc.double({ min: 0.02, max: 0.05, noNaN: true }),
    });
    const places = fc.record({
      beside: fc.boolean(),
      outward: fc.boolean(),
      pitches: fc.double({ min: 1, max: 6, noNaN: true }),
      along: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
    });
    fc.assert(
      fc.property(one, one, places, (a, b, { beside, outward, pitches, along }) => {
        const gap = pitches * Math.max(a.pitch, b.pitch);
        const first = { turns: a.turns, radius: a.radius, length: a.turns * a.pitch, position: 0 };
        const length = b.turns * b.pitch;
        const second = {
          turns: b.turns,
          length,
          radius: beside ? a.radius : a.radius + (outward ? gap : -gap),
          position: beside ? (first.length + length) / 2 + gap : along * first.length,
        };
        const sum = fullSum(first, second);
        expect(relativeError(mutualInductance(first, second), sum)).toBeLessThan(0.002);
      }),
      { seed: 22, numRuns: 150 },
    );
  });
});

const anyWinding = fc.record({
  turns: fc.integer({ min: 1, max: 200 }),
  radius: fc.double({ min: 0.005, max: 0.08, noNaN: true }),
  length: fc.double({ min: 0, max: 0.2, noNaN: true }),
  position: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
});

describe('any two windings', () => {
  it('have the same mutual inductance either way round', () => {
    fc.assert(
      fc.property(anyWinding, anyWinding, (first, second) => {
        fc.pre(first.radius !== second.radius);
        const one = known(mutualInductance(first, second));
        expect(relativeError(mutualInductance(second, first), one)).toBeLessThan(1e-9);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('change its sign, and nothing else, when one is reversed', () => {
    fc.assert(
      fc.property(anyWinding, anyWinding, (first, second) => {
        fc.pre(first.radius !== second.radius);
        const aiding = known(mutualInductance(first, second));
        expect(mutualInductance({ ...first, reversed: true }, second)).toBe(-aiding);
      }),
      { seed: 6, numRuns: 50 },
    );
  });

  it('are coupled by less than 1', () => {
    const coil = fc.record({
      turns: fc.integer({ min: 2, max: 120 }),
      radius: fc.double({ min: 0.01, max: 0.06, noNaN: true }),
      pitch: fc.double({ min: 2e-4, max: 2e-3, noNaN: true }),
    });
    fc.assert(
      fc.property(coil, coil, fc.double({ min: -0.1, max: 0.1, noNaN: true }), (a, b, position) => {
        fc.pre(Math.abs(a.radius - b.radius) > 5e-4);
        const self = (c: typeof a) =>
          known(singleLayerInductance({ ...c, wireDiameter: 0.7 * c.pitch }));
        const place = (c: typeof a, at: number) => ({
          ...c,
          length: c.turns * c.pitch,
          position: at,
        });
        const mutual = known(mutualInductance(place(a, 0), place(b, position)));
        const k = known(couplingCoefficient(mutual, self(a), self(b)));
        expect(k).toBeGreaterThan(0);
        expect(k).toBeLessThan(1);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it('in series aiding less opposing differ by four times the mutual inductance', () => {
    // Method of measurement of NBS Circular 74. The right side is by pairs of turns of both
    // windings as one; the left by the separate routines.
    const first = known(turnsOf(secondary));
    const second = known(turnsOf(winding(12, 1.42, 1 / 41.8, -0.5)));
    const wire = 0.008 * INCH;
    const aiding = known(selfOfTurns([...first, ...second], wire));
    const mutual = known(mutualInductance(secondary, winding(12, 1.42, 1 / 41.8, -0.5)));
    const [one, other] = [known(selfOfTurns(first, wire)), known(selfOfTurns(second, wire))];
    const opposing = known(seriesInductance(one, other, -mutual));
    expect(relativeError((aiding - opposing) / 4, mutual)).toBeLessThan(0.0005);
    expect(relativeError(seriesInductance(one, other, mutual), aiding)).toBeLessThan(0.0005);
  });
});

describe('sections of a tapped winding', () => {
  const coil = {
    turns: 43,
    radius: 1.5 * INCH,
    pitch: INCH / 30,
    wireDiameter: 0.0253 * INCH,
  };
  const turns = known(turnsOf({ ...coil, length: 43 * coil.pitch, position: 0 }));
  const stretch = (from: number, to: number): readonly Turn[] => turns.slice(from, to);

  it.each([
    [0, 13, 13, 43],
    [0, 4, 20, 43],
    [5, 6, 6, 43],
    [0, 20, 35, 43],
  ])(
    '%i to %i and %i to %i agree with their pairs of turns within 0.1 %% of the whole',
    (a, b, c, d) => {
      const mutual = known(sectionMutualInductance(coil, { from: a, to: b }, { from: c, to: d }));
      const pairs = known(mutualOfTurns(stretch(a, b), stretch(c, d)));
      const whole = known(singleLayerInductance(coil));
      expect(Math.abs(mutual - pairs)).toBeLessThan(0.001 * whole);
    },
  );

  it('always add up to the whole winding', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 42 }), (tap) => {
        const [first, second] = [
          { from: 0, to: tap },
          { from: tap, to: 43 },
        ];
        const sum = seriesInductance(
          known(stretchInductance(coil, tap)),
          known(stretchInductance(coil, 43 - tap)),
          known(sectionMutualInductance(coil, first, second)),
        );
        expect(relativeError(sum, known(singleLayerInductance(coil)))).toBeLessThan(1e-12);
      }),
      { seed: 8, numRuns: 42 },
    );
  });

  it('with itself a section has its self-inductance', () => {
    const section = { from: 3, to: 17 };
    const self = known(sectionMutualInductance(coil, section, section));
    expect(relativeError(self, known(stretchInductance(coil, 14)))).toBeLessThan(1e-12);
  });

  it('couple to another winding by as much as the whole does, all told', () => {
    const tickler = winding(20, 1.2, 1 / 60, 0.5);
    const whole = known(mutualInductance(secondary, tickler));
    const [low, high] = [known(sectionOf(secondary, 0, 20)), known(sectionOf(secondary, 20, 58))];
    const parts = known(mutualInductance(low, tickler)) + known(mutualInductance(high, tickler));
    expect(relativeError(parts, whole)).toBeLessThan(0.0005);
  });
});

/** Neumann's double integral for two circles, one turned about a diameter; radius 1 and r. */
function inclinedCircles(radius: number, angle: number, offset: number): number {
  const steps = 96;
  let sum = 0;
  for (let i = 0; i < steps; i += 1) {
    const p = (2 * Math.PI * (i + 0.5)) / steps;
    for (let j = 0; j < steps; j += 1) {
      const q = (2 * Math.PI * j) / steps;
      const along = radius * Math.cos(q);
      const across = radius * Math.sin(q);
      const distance = Math.hypot(
        Math.cos(p) - along * Math.cos(angle),
        Math.sin(p) - across,
        along * Math.sin(angle) + offset,
      );
      const direction = Math.sin(p) * Math.sin(q) * Math.cos(angle) + Math.cos(p) * Math.cos(q);
      sum += direction / distance;
    }
  }
  return sum;
}

describe('a winding turned inside another', () => {
  it.each([
    [1, 1],
    [0.5, 0.5],
    [0, 0],
    [-1, -1],
  ])('at setting %f keeps %f of the aligned coupling', (setting, share) => {
    expect(turnedMutualInductance(40e-6, known(turnOfSetting(setting)))).toBeCloseTo(
      share * 40e-6,
      15,
    );
  });

  it('follows the cosine within 0.09 for a circle of half the radius', () => {
    // F. E. Neumann's formula (1845), integrated here, stands for the measurement.
    for (const degrees of [30, 45, 60, 75, 90]) {
      const angle = (degrees * Math.PI) / 180;
      const share = inclinedCircles(0.5, angle, 0) / inclinedCircles(0.5, 0, 0);
      expect(Math.abs(share - known(turnedMutualInductance(1, angle)))).toBeLessThan(0.091);
    }
  });
});
