import { areNotNegative, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * How the plates are cut: equal steps of the dial give equal steps of capacity (half-round
 * plates), of wavelength or of frequency.
 */
export type PlateLaw = 'capacity' | 'wavelength' | 'frequency';

/** A variable condenser. */
export interface VariableCondenser {
  /** Plates out, farads, above 0. */
  readonly minimum: number;
  /** Plates in, farads, above the minimum. */
  readonly maximum: number;
  readonly law: PlateLaw;
  /** Capacity in parallel for which the maker straightened the law, farads; 0 when left out. */
  readonly stray?: number;
}

/** The power of total capacity that goes evenly with the dial. */
const POWERS: Readonly<Record<PlateLaw, number>> = {
  capacity: 1,
  wavelength: 0.5,
  frequency: -0.5,
};

/**
 * Capacity in farads at a fraction of the dial: 0 plates out, 1 plates in.
 *
 * Undefined outside 0 … 1 or when the condenser could not exist. Exact for the ideal law; real
 * plates depart at both ends, half-round ones by about 2 % of the maximum below a tenth.
 * Source: plate laws of the handbooks (wavelength goes with the square root of the capacity).
 */
export function capacitanceAtDial(
  condenser: VariableCondenser,
  fraction: number,
): number | undefined {
  const ends = evenEnds(condenser);
  if (ends === undefined || !(fraction >= 0 && fraction <= 1)) {
    return undefined;
  }
  if (fraction === 0) {
    return condenser.minimum;
  }
  if (fraction === 1) {
    return condenser.maximum;
  }
  const even = ends.low + fraction * (ends.high - ends.low);
  return finiteOrUndefined(even ** (1 / ends.power) - (condenser.stray ?? 0));
}

/**
 * Fraction of the dial, 0 plates out to 1 plates in, at which the condenser has a capacity in
 * farads. Undefined when it never has, or could not exist. The exact reverse of
 * `capacitanceAtDial`.
 */
export function dialAtCapacitance(
  condenser: VariableCondenser,
  capacitance: number,
): number | undefined {
  const ends = evenEnds(condenser);
  if (ends === undefined || !(capacitance >= condenser.minimum)) {
    return undefined;
  }
  if (capacitance > condenser.maximum) {
    return undefined;
  }
  const even = (capacitance + (condenser.stray ?? 0)) ** ends.power;
  return finiteOrUndefined((even - ends.low) / (ends.high - ends.low));
}

/**
 * Reading of a dial at a fraction of its turn, 0 plates out, and the scale's two ends.
 *
 * @param low reading at the end of the scale with the lower figure @param high the other end
 * @param reversed the upper end of the scale is plates out; otherwise it is plates in
 *
 * Undefined unless the fraction is 0 … 1 and the ends differ. Exact.
 */
export function dialReading(
  fraction: number,
  low: number,
  high: number,
  reversed = false,
): number | undefined {
  if (!(fraction >= 0 && fraction <= 1) || !Number.isFinite(high - low) || high === low) {
    return undefined;
  }
  return finiteOrUndefined(low + (reversed ? 1 - fraction : fraction) * (high - low));
}

/** Fraction of the turn, 0 plates out, at a dial's reading: the reverse of `dialReading`. */
export function dialFraction(
  reading: number,
  low: number,
  high: number,
  reversed = false,
): number | undefined {
  const along = (reading - low) / (high - low);
  if (!(along >= 0 && along <= 1)) {
    return undefined;
  }
  return reversed ? 1 - along : along;
}

function evenEnds(condenser: VariableCondenser) {
  const { minimum, maximum, law, stray = 0 } = condenser;
  if (!arePositive(minimum, maximum) || !areNotNegative(stray) || maximum <= minimum) {
    return undefined;
  }
  const power = POWERS[law];
  return { power, low: (minimum + stray) ** power, high: (maximum + stray) ** power };
}
