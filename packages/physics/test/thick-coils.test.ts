import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  flatCoilInductance,
  multilayerInductance,
  selfOfTurns,
  thickCoilInductance,
  turnsOf,
} from '../src/index.ts';
import { known, relativeError } from './support.ts';

describe('a coil of many layers, by bundles', () => {
  it('of the best shape has 1.6994 a N² microhenries', () => {
    // H. B. Brooks, Bureau of Standards Journal of Research 7 (1931) 289 (from memory): square
    // section of side c, mean radius 1.5 c, a in metres.
    const coil = { turns: 100, radius: 0.03, length: 0.02, depth: 0.02, position: 0 };
    expect(relativeError(thickCoilInductance(coil), 1.6994e-6 * 0.03 * 100 ** 2)).toBeLessThan(
      2e-4,
    );
  });

  // Against the sum over every turn in square order; millimetres.
  it.each([
    [100, 10, 30, 10, 10, 0.5],
    [400, 20, 20, 20, 20, 0.5],
    [60, 6, 30, 20, 10, 1],
    [400, 20, 12, 20, 20, 0.6],
  ])(
    'of %i turns in %i layers agrees with its turns within 0.05 %%',
    (turns, layers, a, b, c, d) => {
      const coil = { turns, radius: a / 1e3, length: b / 1e3, depth: c / 1e3, position: 0 };
      const sum = known(selfOfTurns(known(turnsOf(coil, layers)), d / 2e3));
      expect(relativeError(thickCoilInductance(coil, d / 1e3), sum)).toBeLessThan(0.0005);
    },
  );
});

describe('short formulas keep within the error they state', () => {
  it('for coils of many layers', () => {
    const shape = fc.record({
      length: fc.double({ min: Math.log(0.02), max: Math.log(10), noNaN: true }),
      depth: fc.double({ min: Math.log(0.02), max: Math.log(1.9), noNaN: true }),
    });
    fc.assert(
      fc.property(shape, (logs) => {
        const [length, depth] = [Math.exp(logs.length) * 0.03, Math.exp(logs.depth) * 0.03];
        const short = multilayerInductance(500, 0.03, length, depth);
        fc.pre(short !== undefined);
        const coil = { turns: 500, radius: 0.03, length, depth, position: 0 };
        const error = relativeError(short.inductance, known(thickCoilInductance(coil)));
        expect(error).toBeLessThan(short.relativeError);
      }),
      { seed: 9, numRuns: 300 },
    );
  });

  it('for flat spirals', () => {
    const spiral = fc.record({
      turns: fc.integer({ min: 8, max: 80 }),
      shape: fc.double({ min: 0.1, max: 1.9, noNaN: true }),
      fill: fc.double({ min: 0.33, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(spiral, ({ turns, shape, fill }) => {
        const coil = { turns, radius: 0.04, length: 0, depth: shape * 0.04, position: 0 };
        const wireRadius = (fill * coil.depth) / turns / 2;
        const exact = known(selfOfTurns(known(turnsOf(coil, turns)), wireRadius));
        const short = known(flatCoilInductance(turns, 0.04, coil.depth));
        expect(relativeError(short.inductance, exact)).toBeLessThan(short.relativeError);
      }),
      { seed: 10, numRuns: 100 },
    );
  });
});
