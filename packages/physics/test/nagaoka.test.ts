import { describe, expect, it } from 'vitest';
import { nagaokaCoefficient } from '../src/index.ts';
import { relativeError } from './support.ts';

/**
 * Diameter over length and coefficient. NBS Circular 74 (1918), table 10, prints four digits
 * (from memory up to 12); the further digits by integrating Maxwell's mutual inductance of two
 * circles along the coil, computed independently to twenty digits.
 */
const TABLE: readonly (readonly [diameterOverLength: number, coefficient: number])[] = [
  [0, 1],
  [0.05, 0.979091743],
  [0.1, 0.958807124],
  [0.15, 0.939142668],
  [0.2, 0.920092671],
  [0.3, 0.883802909],
  [0.35, 0.866541938],
  [0.4, 0.849853435],
  [0.45, 0.833723141],
  [0.5, 0.818135752],
  [0.6, 0.788524632],
  [0.65, 0.774467088],
  [0.7, 0.760885206],
  [0.75, 0.747761624],
  [0.8, 0.735079063],
  [0.9, 0.71096903],
  [0.95, 0.699508397],
  [1, 0.688422607],
  [1.05, 0.677696196],
  [1.1, 0.667314219],
  [1.2, 0.647526503],
  [1.25, 0.638093623],
  [1.35, 0.620086139],
  [1.4, 0.611487709],
  [1.5, 0.595045885],
  [1.6, 0.57954254],
  [1.8, 0.551057226],
  [1.9, 0.537945125],
  [2, 0.525510024],
  [2.2, 0.502472127],
  [2.4, 0.481590392],
  [2.6, 0.462572786],
  [2.8, 0.445176531],
  [3, 0.429198617],
  [4, 0.365431897],
  [4.5, 0.34089902],
  [5, 0.319825468],
  [6, 0.285410093],
  [7, 0.258406288],
  [8, 0.236582436],
  [9, 0.218532324],
  [10, 0.203323518],
  [14, 0.160431682],
  [16, 0.145667955],
  [20, 0.12361481],
  [25, 0.104562024],
  [35, 0.0807992747],
  [40, 0.0728227737],
  [50, 0.0610976062],
  [60, 0.0528483315],
  [80, 0.0419249018],
  [90, 0.0380995623],
  [100, 0.0349602458],
];

describe("Nagaoka's coefficient", () => {
  it.each(TABLE)('at diameter over length %f is %f, within 1e-6', (ratio, coefficient) => {
    expect(relativeError(nagaokaCoefficient(ratio), coefficient)).toBeLessThan(1e-6);
  });

  it('falls without a step where the short-coil series takes over', () => {
    const below = nagaokaCoefficient(299.999_999) ?? Number.NaN;
    const above = nagaokaCoefficient(300.000_001) ?? Number.NaN;
    expect(below).toBeGreaterThan(above);
    expect(relativeError(above, below)).toBeLessThan(1e-8);
  });
});
