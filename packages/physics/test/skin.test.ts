import { describe, expect, it } from 'vitest';
import {
  skinArgument,
  skinDepth,
  skinInductanceRatio,
  skinResistanceRatio,
  transverseLossRatio,
  wireDiameter,
  wireResistancePerMetre,
} from '../src/index.ts';
import { kelvinFunctions } from '../src/kelvin.ts';
import { known, relativeError } from './support.ts';

describe('skin effect of a straight round wire', () => {
  // NBS Circular 74 (1918), tables 17 to 19 (from memory, reproduced by complex Bessel
  // functions to eight digits): resistance ratio and internal inductance ratio.
  it.each([
    [0.5, 1.0003254, 0.999837],
    [1, 1.0051867, 0.997408],
    [1.5, 1.0258237, 0.987111],
    [2, 1.0781587, 0.961135],
    [2.5, 1.1753789, 0.913466],
    [3, 1.3180948, 0.845167],
    [3.5, 1.492019, 0.765501],
    [4, 1.6778689, 0.686323],
    [5, 2.0427251, 0.555968],
    [6, 2.3935896, 0.465206],
    [8, 3.0944457, 0.351072],
    [10, 3.7985761, 0.281619],
    [15, 5.562079, 0.188216],
    [20, 7.3276724, 0.141279],
    [50, 17.93032, 0.0565598],
    [100, 35.606665, 0.0282832],
  ])('at x = %f raises resistance %f times and leaves %f of the inductance', (x, r, l) => {
    expect(relativeError(skinResistanceRatio(x), r)).toBeLessThan(2e-4);
    expect(relativeError(skinInductanceRatio(x), l)).toBeLessThan(2e-4);
  });

  // Computed independently for annealed copper at 20 °C and 1 megacycle: ratio, ohms a metre.
  it.each([
    [16, 5.1428, 0.06775],
    [18, 4.1346, 0.08661],
    [20, 3.336, 0.11112],
    [22, 2.7042, 0.14322],
    [24, 2.206, 0.18577],
    [26, 1.8013, 0.2412],
    [28, 1.4686, 0.31269],
    [30, 1.2344, 0.41792],
    [32, 1.1042, 0.59438],
  ])('raises No. %i copper %f times at 1 megacycle, to %f ohm a metre', (gauge, ratio, ohms) => {
    const diameter = known(wireDiameter(gauge));
    const raised = known(skinResistanceRatio(known(skinArgument(diameter, 1e6))));
    expect(relativeError(raised, ratio)).toBeLessThan(2e-4);
    expect(relativeError(raised * known(wireResistancePerMetre(diameter)), ohms)).toBeLessThan(
      2e-4,
    );
  });

  it('is 66.085 micrometres deep in copper at 1 megacycle', () => {
    // Computed independently from the annealed copper standard.
    expect(known(skinDepth(1e6)) * 1e6).toBeCloseTo(66.085, 2);
  });

  it.each([
    [skinResistanceRatio, 1e-6],
    [skinInductanceRatio, 1e-5],
    [transverseLossRatio, 1e-4],
  ])('%o has no step where the thick-wire expansion takes over', (ratio, tolerance) => {
    expect(relativeError(ratio(30.000001), known(ratio(29.999999)))).toBeLessThan(tolerance);
  });
});

describe('a wire across an alternating field', () => {
  it('loses as x⁴/32 while thin', () => {
    // First term of the series, S. Butterworth (1925).
    expect(relativeError(transverseLossRatio(0.1), 0.1 ** 4 / 32)).toBeLessThan(1e-4);
  });

  it('loses as x/(2√2) once thick, which is the unit it is counted in', () => {
    expect(known(transverseLossRatio(2000)) / (2000 / (2 * Math.SQRT2))).toBeCloseTo(1, 3);
  });
});

describe("Kelvin's functions", () => {
  it('are 0.98438, 0.24957, −0.06245 and 0.49740 at 1', () => {
    // NIST Digital Library of Mathematical Functions, 10.65.1: two terms of each series.
    const { ber, bei, berSlope, beiSlope } = known(kelvinFunctions(1));
    expect(ber).toBeCloseTo(0.98438, 5);
    expect(bei).toBeCloseTo(0.24957, 5);
    expect(berSlope).toBeCloseTo(-0.06245, 5);
    expect(beiSlope).toBeCloseTo(0.4974, 5);
  });
});
