import { describe, expect, it } from 'vitest';
import {
  coilQ,
  coilResistance,
  coilSelfCapacitance,
  proximityRatio,
  qualityFactor,
  resonantFrequency,
  type SingleLayerCoil,
  singleLayerInductance,
  wireDiameter,
} from '../src/index.ts';
import { INCH, known, relativeError } from './support.ts';

/** Mean diameter is the form's plus the wire's, as wound. */
function onForm(turns: number, form: number, turnsPerInch: number, gauge: number): SingleLayerCoil {
  return {
    turns,
    radius: ((form + 1 / turnsPerInch) / 2) * INCH,
    pitch: INCH / turnsPerInch,
    wireDiameter: known(wireDiameter(gauge)),
  };
}
const cottonCoil = onForm(60, 3, 30, 22);
const enamelCoil = onForm(100, 2, 72.7, 28);

describe('resistance of the turns over the straight wire', () => {
  // R. G. Medhurst, Wireless Engineer 24 (1947) 35 (from memory): length over diameter, then
  // the ratio at wire over pitch of 1, 0.9 … 0.1.
  it.each([
    [0, [5.31, 3.73, 2.74, 2.12, 1.74, 1.44, 1.26, 1.16, 1.07, 1.02]],
    [0.2, [5.45, 3.84, 2.83, 2.2, 1.77, 1.48, 1.29, 1.19, 1.08, 1.02]],
    [0.4, [5.65, 3.99, 2.97, 2.28, 1.83, 1.54, 1.33, 1.21, 1.08, 1.03]],
    [0.6, [5.8, 4.11, 3.1, 2.38, 1.89, 1.6, 1.38, 1.22, 1.1, 1.03]],
    [0.8, [5.8, 4.17, 3.2, 2.44, 1.92, 1.64, 1.42, 1.23, 1.1, 1.03]],
    [1, [5.55, 4.1, 3.17, 2.47, 1.94, 1.67, 1.45, 1.24, 1.1, 1.03]],
    [2, [4.1, 3.36, 2.74, 2.32, 1.98, 1.74, 1.5, 1.28, 1.13, 1.04]],
    [4, [3.54, 3.05, 2.6, 2.27, 2.01, 1.78, 1.54, 1.32, 1.15, 1.04]],
    [6, [3.31, 2.92, 2.6, 2.29, 2.03, 1.8, 1.56, 1.34, 1.16, 1.04]],
    [8, [3.2, 2.9, 2.62, 2.34, 2.08, 1.81, 1.57, 1.34, 1.165, 1.04]],
    [10, [3.23, 2.93, 2.65, 2.27, 2.1, 1.83, 1.58, 1.35, 1.17, 1.04]],
    [Infinity, [3.41, 3.11, 2.815, 2.51, 2.22, 1.93, 1.65, 1.395, 1.19, 1.05]],
  ] as const)('at length %f diameters is the tabled one', (length, row) => {
    const spacings = [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1];
    expect(spacings.map((spacing) => proximityRatio(length, spacing))).toEqual(row);
  });

  // First-order theory, the wire in the field of all other turns, computed independently:
  // 1 + c (d/s)², c by length over diameter. Agreement promised within 0.02 up to 0.2 and 4 %
  // up to 0.5 for short coils.
  it.each([
    [0, 1.645],
    [0.2, 1.808],
    [0.4, 2.034],
    [0.6, 2.256],
    [0.8, 2.461],
    [1, 2.648],
    [2, 3.327],
    [4, 3.969],
    [6, 4.25],
    [Infinity, 4.935],
  ])('agrees at length %f diameters with 1 + %f (d/s)² for wide spacing', (length, c) => {
    for (const spacing of [0.05, 0.1, 0.15, 0.2]) {
      const theory = 1 + c * spacing * spacing;
      expect(Math.abs(known(proximityRatio(length, spacing)) - theory)).toBeLessThan(0.025);
    }
  });

  it('never falls as the turns close up', () => {
    for (const length of [0, 0.3, 0.7, 1.5, 3, 9, 25, Infinity]) {
      let last = 0;
      for (let spacing = 0; spacing <= 1; spacing += 0.02) {
        const ratio = known(proximityRatio(length, spacing));
        expect(ratio).toBeGreaterThanOrEqual(last);
        last = ratio;
      }
    }
  });

  it('is 2.840 for 60 turns of 22 DCC on 3 inches and 4.452 for 100 of 28 enamel on 2', () => {
    // Interpolated independently in the same table.
    const ratio = ({ turns, radius, pitch, wireDiameter: wire }: SingleLayerCoil) =>
      proximityRatio((turns * pitch) / (2 * radius), wire / pitch);
    expect(relativeError(ratio(cottonCoil), 2.84)).toBeLessThan(0.003);
    expect(relativeError(ratio(enamelCoil), 4.452)).toBeLessThan(0.003);
  });
});

describe('radio-frequency resistance of a coil', () => {
  // φ times the thick-skin limit of the straight wire, computed independently at 550, 1000 and
  // 1500 kc. The limit goes with √f: it is read off here at a frequency where it holds.
  it.each([
    ['60 turns of 22 DCC', cottonCoil, 0.55e6, 3.95],
    ['60 turns of 22 DCC', cottonCoil, 1e6, 5.32],
    ['60 turns of 22 DCC', cottonCoil, 1.5e6, 6.52],
    ['100 turns of 28 enamel', enamelCoil, 0.55e6, 13.7],
    ['100 turns of 28 enamel', enamelCoil, 1e6, 18.5],
    ['100 turns of 28 enamel', enamelCoil, 1.5e6, 22.7],
  ] as const)('of %s nears φ times the straight wire', (_, coil, frequency, ohms) => {
    const limit = known(coilResistance(coil, frequency * 1e8)) / 1e4;
    expect(relativeError(limit, ohms)).toBeLessThan(0.01);
  });

  it('keeps Q above the thick-skin estimate, and within 5 % of it for thick wire', () => {
    // Q 215, 290 and 356 at 550, 1000 and 1500 kc for the first coil, computed as above.
    for (const [frequency, q] of [
      [0.55e6, 215],
      [1e6, 290],
      [1.5e6, 356],
    ] as const) {
      expect(known(coilQ(cottonCoil, frequency)) / q - 1).toBeGreaterThan(0);
      expect(known(coilQ(cottonCoil, frequency)) / q - 1).toBeLessThan(0.05);
    }
  });

  it('is that of the wire alone at low frequency', () => {
    // 47.6 feet of No. 22 at 16.14 ohms a thousand feet (copper wire table, from memory).
    expect(known(coilResistance(cottonCoil, 0))).toBeCloseTo(0.769, 3);
    expect(known(coilResistance(cottonCoil, 60))).toBeCloseTo(0.769, 3);
  });

  it('is least at direct current and grows with every step of frequency', () => {
    let last = known(coilResistance(enamelCoil, 0));
    for (let frequency = 1e4; frequency < 1e8; frequency *= 1.5) {
      const resistance = known(coilResistance(enamelCoil, frequency));
      expect(resistance).toBeGreaterThan(last);
      last = resistance;
    }
  });

  it('gives Q 100 to 200 microhenries with 12.566 ohms at 1000 kc', () => {
    // ωL = 1256.637 ohms.
    expect(known(qualityFactor(200e-6, 12.56637, 1e6))).toBeCloseTo(100, 4);
  });
});

describe('self-capacitance of a coil', () => {
  // R. G. Medhurst, Wireless Engineer 24 (1947) 80, read in a transcription: length over
  // diameter, micromicrofarads for each centimetre of diameter.
  it.each([
    [50, 5.8],
    [40, 4.6],
    [30, 3.4],
    [25, 2.9],
    [20, 2.36],
    [15, 1.86],
    [10, 1.32],
    [9, 1.22],
    [8, 1.12],
    [7, 1.01],
    [6, 0.92],
    [5, 0.81],
    [4.5, 0.77],
    [4, 0.72],
    [3.5, 0.67],
    [3, 0.61],
    [2.5, 0.56],
    [2, 0.5],
    [1.5, 0.47],
    [1, 0.46],
    [0.9, 0.46],
    [0.8, 0.46],
    [0.7, 0.47],
    [0.6, 0.48],
    [0.5, 0.5],
    [0.45, 0.52],
    [0.4, 0.54],
    [0.35, 0.57],
    [0.3, 0.6],
    [0.25, 0.64],
    [0.2, 0.7],
    [0.15, 0.79],
    [0.1, 0.96],
  ])('at length %f diameters is %f µµF a centimetre', (shape, perCentimetre) => {
    expect(
      relativeError(coilSelfCapacitance(shape * 0.1, 0.1), perCentimetre * 1e-11),
    ).toBeLessThan(1e-9);
  });

  it('of 60 turns on 3 inches is 3.65 µµF: the coil resonates by itself at 5.31 Mc', () => {
    // Computed independently from the table.
    const capacitance = known(coilSelfCapacitance(60 * cottonCoil.pitch, 2 * cottonCoil.radius));
    expect(relativeError(capacitance, 3.65e-12)).toBeLessThan(0.01);
    const inductance = known(singleLayerInductance(cottonCoil));
    expect(relativeError(resonantFrequency(inductance, capacitance), 5.31e6)).toBeLessThan(0.01);
  });

  it('is not known for a coil shorter than a tenth of its diameter', () => {
    expect(coilSelfCapacitance(0.005, 0.1)).toBeUndefined();
  });
});
