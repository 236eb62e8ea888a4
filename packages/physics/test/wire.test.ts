import { describe, expect, it } from 'vitest';
import {
  coveredDiameter,
  tabledTurnsPerInch,
  type WireCovering,
  windingWireLength,
  wireDiameter,
  wireResistancePerMetre,
} from '../src/index.ts';
import { INCH, known, relativeError } from './support.ts';

const FOOT = 12 * INCH;

describe('B&S gauge', () => {
  // Cyclopedia of Telephony, volume 1, table III: No. 0000 to 5 in mils, printed to 0.1 mil.
  it.each([
    [-3, 460],
    [-2, 409.6],
    [-1, 364.8],
    [0, 324.9],
    [1, 289.3],
    [2, 257.6],
    [3, 229.4],
    [4, 204.3],
    [5, 181.9],
  ])('No. %i is %f mils', (gauge, mils) => {
    expect(relativeError(wireDiameter(gauge), (mils / 1000) * INCH)).toBeLessThan(0.0005);
  });

  // Amateur handbooks' copper wire table (from memory, reproduced from the annealed copper
  // standard of NBS Circular 31, 1914): bare mils and ohms for 1000 feet at 20 °C.
  it.each([
    [10, 101.9, 0.9989],
    [12, 80.81, 1.588],
    [14, 64.08, 2.525],
    [16, 50.82, 4.016],
    [18, 40.3, 6.385],
    [20, 31.96, 10.15],
    [22, 25.35, 16.14],
    [24, 20.1, 25.67],
    [26, 15.94, 40.81],
    [28, 12.64, 64.9],
    [30, 10.03, 103.2],
    [32, 7.95, 164.1],
    [34, 6.305, 260.9],
    [36, 5, 414.8],
    [38, 3.965, 659.6],
    [40, 3.145, 1049],
  ])('No. %i has %f mils and %f ohms for 1000 feet, within 0.05 %%', (gauge, mils, ohms) => {
    const diameter = known(wireDiameter(gauge));
    const thousandFeet = known(wireResistancePerMetre(diameter)) * 1000 * FOOT;
    expect(relativeError(diameter, (mils / 1000) * INCH)).toBeLessThan(0.0005);
    expect(relativeError(thousandFeet, ohms)).toBeLessThan(0.0005);
  });

  // Every gauge of that table from No. 8 to 40, computed independently from the annealed copper
  // standard (NBS Circular 31, 1914) and rounded to four figures: ohms for 1000 feet at 20 and
  // at 25 °C.
  it.each([
    [8, 0.6282, 0.6406],
    [9, 0.7922, 0.8077],
    [10, 0.9989, 1.019],
    [11, 1.26, 1.284],
    [12, 1.588, 1.62],
    [13, 2.003, 2.042],
    [14, 2.525, 2.575],
    [15, 3.185, 3.247],
    [16, 4.016, 4.095],
    [17, 5.064, 5.163],
    [18, 6.385, 6.511],
    [19, 8.052, 8.21],
    [20, 10.15, 10.35],
    [21, 12.8, 13.05],
    [22, 16.14, 16.46],
    [23, 20.36, 20.76],
    [24, 25.67, 26.17],
    [25, 32.37, 33],
    [26, 40.82, 41.62],
    [27, 51.47, 52.48],
    [28, 64.9, 66.18],
    [29, 81.84, 83.45],
    [30, 103.2, 105.2],
    [31, 130.1, 132.7],
    [32, 164.1, 167.3],
    [33, 206.9, 211],
    [34, 260.9, 266],
    [35, 329, 335.5],
    [36, 414.9, 423],
    [37, 523.1, 533.4],
    [38, 659.7, 672.6],
    [39, 831.8, 848.2],
    [40, 1049, 1069],
  ])('No. %i has %f ohms for 1000 feet at 20 °C and %f at 25 °C', (gauge, cool, warm) => {
    const diameter = known(wireDiameter(gauge));
    const at = (celsius: number) => known(wireResistancePerMetre(diameter, celsius)) * 1000 * FOOT;
    expect(relativeError(at(20), cool)).toBeLessThan(0.0005);
    expect(relativeError(at(25), warm)).toBeLessThan(0.0005);
  });

  it('No. 10 has 1.018 ohms for 1000 feet at 25 °C', () => {
    // A published wire chart, which prints its resistances at 25 °C.
    const perMetre = known(wireResistancePerMetre(known(wireDiameter(10)), 25));
    expect(relativeError(perMetre * 1000 * FOOT, 1.018)).toBeLessThan(0.0015);
  });
});

describe('British standard gauge', () => {
  // Order in Council of 23 August 1883, as reprinted with BS 3737 (1964); inches from No. 10.
  const inches = [
    0.128, 0.116, 0.104, 0.092, 0.08, 0.072, 0.064, 0.056, 0.048, 0.04, 0.036, 0.032, 0.028, 0.024,
    0.022, 0.02, 0.018, 0.0164, 0.0148, 0.0136, 0.0124, 0.0116, 0.0108, 0.01, 0.0092, 0.0084,
    0.0076, 0.0068, 0.006, 0.0052, 0.0048, 0.0044, 0.004, 0.0036, 0.0032, 0.0028, 0.0024, 0.002,
    0.0016, 0.0012, 0.001,
  ];
  it.each(inches.map((inch, index) => [index + 10, inch]))('No. %i is %f inch', (gauge, inch) => {
    expect(relativeError(wireDiameter(gauge, 'SWG'), inch * INCH)).toBeLessThan(1e-12);
  });

  it('has each number finer than the one before', () => {
    for (let gauge = 1; gauge <= 50; gauge += 1) {
      expect(known(wireDiameter(gauge, 'SWG'))).toBeLessThan(known(wireDiameter(gauge - 1, 'SWG')));
    }
  });
});

describe('covered wire', () => {
  // Amateur handbooks' copper wire table (from memory): turns to the inch.
  it.each([
    [22, 'DCC', 30],
    [24, 'enamel', 46.3],
    [26, 'DCC', 41.8],
    [28, 'DSC', 60.2],
    [28, 'SCC', 60.2],
    [30, 'SSC', 83.3],
  ] as const)('No. %i %s lies %f turns to the inch', (gauge, covering, turns) => {
    expect(tabledTurnsPerInch(gauge, covering)).toBe(turns);
    const outside = coveredDiameter(known(wireDiameter(gauge)), covering);
    expect(relativeError(outside, INCH / turns)).toBeLessThan(1e-9);
  });

  // The same table whole: gauge, enamel, single silk, double silk or single cotton, double cotton.
  it.each([
    [8, 7.6, undefined, 7.4, 7.1],
    [9, 8.6, undefined, 8.2, 7.8],
    [10, 9.6, undefined, 9.3, 8.9],
    [11, 10.7, undefined, 10.3, 9.8],
    [12, 12, undefined, 11.5, 10.9],
    [13, 13.5, undefined, 12.8, 12],
    [14, 15, undefined, 14.2, 13.3],
    [15, 16.8, undefined, 15.8, 14.7],
    [16, 18.9, 18.9, 17.9, 16.4],
    [17, 21.2, 21.2, 19.9, 18.1],
    [18, 23.6, 23.6, 22, 19.8],
    [19, 26.4, 26.4, 24.4, 21.8],
    [20, 29.4, 29.4, 27, 23.8],
    [21, 33.1, 32.7, 29.8, 26],
    [22, 37, 36.5, 34.1, 30],
    [23, 41.3, 40.6, 37.6, 31.6],
    [24, 46.3, 45.3, 41.5, 35.6],
    [25, 51.7, 50.4, 45.6, 38.6],
    [26, 58, 55.6, 50.2, 41.8],
    [27, 64.9, 61.5, 55, 45],
    [28, 72.7, 68.6, 60.2, 48.5],
    [29, 81.6, 74.8, 65.4, 51.8],
    [30, 90.5, 83.3, 71.5, 55.5],
    [31, 101, 92, 77.5, 59.2],
    [32, 113, 101, 83.6, 62.6],
    [33, 127, 110, 90.3, 66.3],
    [34, 143, 120, 97, 70],
    [35, 158, 132, 104, 73.5],
    [36, 175, 143, 111, 77],
    [37, 198, 154, 118, 80.3],
    [38, 224, 166, 126, 83.6],
    [39, 248, 181, 133, 86.6],
    [40, 282, 194, 140, 89.7],
  ])('No. %i lies %f, %s, %f and %f turns to the inch', (gauge, ...row) => {
    const coverings = ['enamel', 'SSC', 'DSC', 'DCC'] as const;
    expect(coverings.map((covering) => tabledTurnsPerInch(gauge, covering))).toEqual(row);
    expect(tabledTurnsPerInch(gauge, 'SCC')).toBe(row[2]);
  });

  // What the table's columns imply all through (its inner regularity): mils added at No. 22
  // and finer, to the rounding of the table.
  it.each([
    ['DCC', 8],
    ['DSC', 4],
    ['SSC', 2],
  ] as const)('%s adds about %f mils from No. 22 on', (covering, mils) => {
    for (let gauge = 22; gauge <= 40; gauge += 1) {
      const bare = known(wireDiameter(gauge));
      const added = (1000 * (known(coveredDiameter(bare, covering)) - bare)) / INCH;
      // No. 23 double cotton is out of line in the table by a mil.
      expect(Math.abs(added - mils)).toBeLessThan(gauge === 23 ? 1.1 : 0.35);
    }
  });

  it('is thicker the heavier its covering, at every size between the gauges too', () => {
    const coverings: readonly WireCovering[] = ['bare', 'enamel', 'SSC', 'DSC', 'DCC'];
    for (let mils = 3.2; mils < 50; mils *= 1.03) {
      const outside = coverings.map((c) => known(coveredDiameter((mils / 1000) * INCH, c)));
      // To No. 20 enamel and single silk are printed alike.
      for (let index = 1; index < outside.length; index += 1) {
        expect(outside[index]).toBeGreaterThanOrEqual((outside[index - 1] ?? 0) * (1 - 1e-9));
      }
    }
  });

  it('has no figure for single silk on thick wire', () => {
    expect(coveredDiameter(known(wireDiameter(12)), 'SSC')).toBeUndefined();
  });
});

it('60 turns on a 3 inch form take 47 feet of wire', () => {
  // Circumference times turns; the pitch of 1/30 inch adds under a thousandth of an inch.
  const length = known(windingWireLength(60, 1.5 * INCH, INCH / 30));
  expect(length / FOOT).toBeCloseTo(47.1, 1);
});
