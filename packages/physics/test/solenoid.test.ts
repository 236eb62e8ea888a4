import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  currentSheetInductance,
  lundinInductance,
  rosaNumberCorrection,
  rosaShapeCorrection,
  type SingleLayerCoil,
  singleLayerInductance,
  turnByTurnInductance,
  wheeler1928Inductance,
} from '../src/index.ts';
import { INCH, known, relativeError } from './support.ts';

const circular74Coil: SingleLayerCoil = {
  turns: 400,
  radius: 0.1,
  pitch: 0.001,
  wireDiameter: 0.0005,
};

describe('single-layer coil', () => {
  it("of 400 turns in Circular 74's example has 12919 microhenries as a sheet", () => {
    // NBS Circular 74 (1918), section 67 (from memory).
    expect(relativeError(currentSheetInductance(400, 0.1, 0.4), 12919e-6)).toBeLessThan(5e-5);
  });

  it("of 400 turns in Circular 74's example has 12909 microhenries of round wire", () => {
    // NBS Circular 74 (1918), section 67 (from memory); independently 12909.52.
    expect(relativeError(singleLayerInductance(circular74Coil), 12909.52e-6)).toBeLessThan(1e-6);
  });

  it('of 50 turns agrees with the sum over its turns', () => {
    // 196.4724 µH by Rosa's method and 196.4699 by the sum, both computed independently.
    const coil = {
      turns: 50,
      radius: 1.5 * INCH,
      pitch: 0.03 * INCH,
      wireDiameter: 0.0201 * INCH,
    };
    expect(relativeError(singleLayerInductance(coil), 196.4724e-6)).toBeLessThan(1e-6);
    expect(relativeError(turnByTurnInductance(coil), 196.4699e-6)).toBeLessThan(1e-6);
  });

  // Worked examples of the amateur handbooks (from memory): turns, diameter and length in
  // inches, and the exact sheet in microhenries computed independently.
  it.each([
    [35, 1.5, 0.5, 59.31],
    [26.077, 1, 1.25, 10.025],
    [48, 0.75, 1.5, 17.72],
  ])('of %f turns, %f by %f inches, has %f µH as a sheet', (turns, diameter, length, published) => {
    const sheet = currentSheetInductance(turns, (diameter / 2) * INCH, length * INCH);
    expect(relativeError(sheet, published * 1e-6)).toBeLessThan(1e-4);
  });
});

/** Coils as wound in sets of the 1920s (common practice): turns, inches. */
const PERIOD_COILS: readonly (readonly [name: string, coil: SingleLayerCoil])[] = [
  ['60 turns of 22 DCC on 3 inches', inches(60, 1.517, 1 / 30, 0.02535)],
  ['58 turns of 26 DCC on 2 3/4 inches', inches(58, 1.387, 1 / 41.8, 0.01594)],
  ['12 turns of 26 DCC on 2 3/4 inches', inches(12, 1.387, 1 / 41.8, 0.01594)],
  ['100 turns of 28 enamel on 2 inches', inches(100, 1.007, 1 / 72.7, 0.01264)],
  ['35 turns of 30 DSC in half an inch on 1 1/2 inches', inches(35, 0.757, 1 / 70, 0.01003)],
  ['200 turns of 24 SCC on 4 inches', inches(200, 2.012, 1 / 41.5, 0.0201)],
];

function inches(turns: number, radius: number, pitch: number, wire: number): SingleLayerCoil {
  return { turns, radius: radius * INCH, pitch: pitch * INCH, wireDiameter: wire * INCH };
}

describe('the closed form against the full sum over turns', () => {
  it.each(PERIOD_COILS)('%s: within 0.1 %%', (_, coil) => {
    const sum = known(turnByTurnInductance(coil));
    expect(relativeError(singleLayerInductance(coil), sum)).toBeLessThan(0.001);
  });
});

describe("Rosa's corrections", () => {
  // E. B. Rosa, Bulletin of the Bureau of Standards 2 (1906); NBS Circular 74, table 7
  // (from memory, reproduced). Printed to four places.
  it.each([
    [1, 0.5569],
    [0.95, 0.5056],
    [0.9, 0.4515],
    [0.8, 0.3337],
    [0.7, 0.2002],
    [0.6, 0.046],
    [0.55, -0.041],
    [0.5, -0.1363],
    [0.4, -0.3594],
    [0.3, -0.6471],
    [0.2, -1.0526],
    [0.1, -1.7457],
  ])('A at wire over pitch %f is %f', (ratio, published) => {
    expect(known(rosaShapeCorrection(ratio)) - published).toBeCloseTo(0, 3);
  });

  // The exact sum over pairs of sheets, computed independently; NBS Circular 74, table 8,
  // prints the same within 0.0012.
  it.each([
    [1, 0],
    [2, 0.113706],
    [3, 0.166261],
    [4, 0.197276],
    [5, 0.217995],
    [8, 0.253184],
    [10, 0.266408],
    [20, 0.29637],
    [50, 0.31822],
    [100, 0.326893],
    [400, 0.334554],
    [1000, 0.336395],
  ])('B for %i turns is %f', (turns, published) => {
    expect(known(rosaNumberCorrection(turns)) - published).toBeCloseTo(0, 5);
  });
});

describe('handbook formulas for the current sheet', () => {
  it("Lundin's keeps within 3e-6 for every shape", () => {
    // R. Lundin, Proc. IEEE 73 (1985) 1428 (from memory, reproduced): claimed error.
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (power) => {
        const length = 10 ** power;
        const exact = known(currentSheetInductance(1, 1, length));
        expect(relativeError(lundinInductance(1, 1, length), exact)).toBeLessThan(3e-6);
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it("Wheeler's of 1928 keeps within −0.6 … +0.06 % from 0.8 radius of length", () => {
    // H. A. Wheeler, Proc. IRE 16 (1928) 1398 claims 1 % (from memory); the narrower band was
    // computed against the exact sheet.
    fc.assert(
      fc.property(fc.double({ min: Math.log10(0.8), max: 3, noNaN: true }), (power) => {
        const exact = known(currentSheetInductance(1, 1, 10 ** power));
        const error = known(wheeler1928Inductance(1, 1, 10 ** power)) / exact - 1;
        expect(error).toBeGreaterThan(-0.00586);
        expect(error).toBeLessThan(0.00057);
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  // Error in percent by length over radius, computed independently against the exact sheet.
  it.each([
    [0.1, -19.3],
    [0.2, -10.8],
    [0.4, -4.06],
    [0.5, -2.54],
    [0.69, -1.0],
    [0.8, -0.54],
    [1.35, 0.056],
    [4, -0.5],
    [7, -0.585],
    [100, -0.32],
  ])("Wheeler's at length %f radii is off by %f %%", (length, percent) => {
    const exact = known(currentSheetInductance(1, 1, length));
    const error = 100 * (known(wheeler1928Inductance(1, 1, length)) / exact - 1);
    expect(Math.abs(error - percent)).toBeLessThan(Math.abs(percent) > 5 ? 0.06 : 0.006);
  });

  it("Wheeler's prints 17.6 microhenries for 48 turns of 3/4 inch", () => {
    // Amateur handbook of the 1950s (from memory).
    const coil = known(wheeler1928Inductance(48, 0.375 * INCH, 1.5 * INCH));
    expect(coil * 1e6).toBeCloseTo(17.6, 1);
  });
});
