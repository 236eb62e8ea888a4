import { areNotNegative, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Feedback figure of a stage with tuned grid and tuned plate, H = gₘ ω Cgp Rg Rp, no unit. One
 * stage is stable below 2, with its circuits tuned as badly as can be.
 *
 * @param transconductance siemens @param frequency hertz @param gridPlate capacity, farads
 * @param gridImpedance @param plateImpedance of the circuits at resonance, ohms, the plate's with
 * the plate resistance in parallel; all 0 or more
 *
 * Undefined outside that. Exact for single tuned circuits of equal Q.
 * Source: B. J. Thompson, "Oscillation in Tuned Radio-Frequency Amplifiers", Proc. IRE 19
 * (1931) 421; for unequal circuits as restated in later discussion.
 */
export function feedbackFigure(
  transconductance: number,
  frequency: number,
  gridPlate: number,
  gridImpedance: number,
  plateImpedance: number,
): number | undefined {
  if (!areNotNegative(transconductance, frequency, gridPlate, gridImpedance, plateImpedance)) {
    return undefined;
  }
  const feedback = transconductance * 2 * Math.PI * frequency * gridPlate;
  return finiteOrUndefined(feedback * gridImpedance * plateImpedance);
}

/** Thompson's limit of the feedback figure for one to four like stages in a row. */
const LIMITS: readonly number[] = [2, 1, 0.764, 0.667];

/**
 * Feedback figure at which a row of like stages starts to oscillate, no unit: 2 for one, less
 * for more. The tuned circuits are one more than the stages.
 *
 * @param stages whole, 1 to 4
 *
 * Undefined outside that. Printed to three figures.
 * Source: B. J. Thompson, Proc. IRE 19 (1931) 421, abstract.
 */
export function oscillationLimit(stages: number): number | undefined {
  return LIMITS[stages - 1];
}

/**
 * Least conductance in siemens, of circuit and plate resistance together, at which a row of like
 * stages with equal circuits stays quiet: √(gₘ ω Cgp / A).
 *
 * @param transconductance siemens @param frequency hertz @param gridPlate farads, above 0
 * @param stages 1 to 4
 *
 * Undefined outside that. Source: as `oscillationLimit`.
 */
export function steadyConductance(
  transconductance: number,
  frequency: number,
  gridPlate: number,
  stages: number,
): number | undefined {
  const limit = oscillationLimit(stages);
  return limit === undefined || !arePositive(transconductance, frequency, gridPlate)
    ? undefined
    : finiteOrUndefined(
        Math.sqrt((transconductance * 2 * Math.PI * frequency * gridPlate) / limit),
      );
}
