import { arePositive } from './domain.ts';

/**
 * Length over diameter and capacity in micromicrofarads for each centimetre of diameter.
 * Source: R. G. Medhurst, Wireless Engineer 24 (1947) 80, read in a transcription.
 */
const TABLE: readonly (readonly [lengthOverDiameter: number, perCentimetre: number])[] = [
  [0.1, 0.96],
  [0.15, 0.79],
  [0.2, 0.7],
  [0.25, 0.64],
  [0.3, 0.6],
  [0.35, 0.57],
  [0.4, 0.54],
  [0.45, 0.52],
  [0.5, 0.5],
  [0.6, 0.48],
  [0.7, 0.47],
  [0.8, 0.46],
  [0.9, 0.46],
  [1, 0.46],
  [1.5, 0.47],
  [2, 0.5],
  [2.5, 0.56],
  [3, 0.61],
  [3.5, 0.67],
  [4, 0.72],
  [4.5, 0.77],
  [5, 0.81],
  [6, 0.92],
  [7, 1.01],
  [8, 1.12],
  [9, 1.22],
  [10, 1.32],
  [15, 1.86],
  [20, 2.36],
  [25, 2.9],
  [30, 3.4],
  [40, 4.6],
  [50, 5.8],
];

/**
 * Self-capacitance in farads of a single-layer coil with one end grounded, by itself in air.
 *
 * @param length of the winding, metres @param diameter mean, metres; length 0.1 to 50 diameters
 *
 * Undefined outside that. Straight lines between the table's points, within 1 %; the table itself
 * about 5 %, and wiring, form and shields add more.
 * Source: R. G. Medhurst, Wireless Engineer 24 (1947) 80.
 */
export function coilSelfCapacitance(length: number, diameter: number): number | undefined {
  if (!arePositive(length, diameter)) {
    return undefined;
  }
  const shape = length / diameter;
  const above = TABLE.findIndex(([ratio]) => ratio >= shape);
  const upper = TABLE[above];
  const lower = TABLE[Math.max(0, above - 1)];
  if (upper === undefined || lower === undefined || shape < lower[0]) {
    return undefined;
  }
  const share = upper[0] === lower[0] ? 0 : (shape - lower[0]) / (upper[0] - lower[0]);
  const perCentimetre = lower[1] + share * (upper[1] - lower[1]);
  return perCentimetre * 1e-12 * diameter * 100;
}
