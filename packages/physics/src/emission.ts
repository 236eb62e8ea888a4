import { allFiniteOrUndefined, areNotNegative, arePositive } from './domain.ts';

/** What the electrons come from. */
export type CathodeKind = 'tungsten' | 'thoriated' | 'oxide';

/**
 * Richardson's exponent and the working temperature, kelvin, and emission for each watt of
 * heating at rated volts, amperes. All from memory of the tube texts of the 1930s: work
 * functions 4.5, 2.6 and 1.1 volts; emission good to a factor of two between makers and ages.
 */
const CATHODES: Readonly<
  Record<CathodeKind, { exponent: number; temperature: number; perWatt: number }>
> = {
  tungsten: { exponent: 52_400, temperature: 2400, perWatt: 0.005 },
  thoriated: { exponent: 30_500, temperature: 1900, perWatt: 0.05 },
  oxide: { exponent: 12_800, temperature: 1050, perWatt: 0.15 },
};

/** Temperature goes with this power of the filament's volts: the lamp laws give 0.33 to 0.42. */
const TEMPERATURE_POWER = 0.37;

/** How sharply the current bends over to saturation; from memory of measured curves. */
const SHARPNESS = 3;

/**
 * Saturation current in amperes of a sound new filament at rated volts, by the heating power.
 *
 * @param power of the filament at rated volts, watts, above 0
 *
 * Undefined outside that. From memory; good to a factor of two.
 */
export function typicalSaturation(cathode: CathodeKind, power: number): number | undefined {
  return arePositive(power) ? CATHODES[cathode].perWatt * power : undefined;
}

/**
 * Saturation current of a filament off its rated volts, as a share of that at rated volts;
 * no unit. At 10 % under about a half, at 30 % under about a tenth.
 *
 * @param voltsOverRated filament volts over rated, 0 or more
 *
 * Undefined outside that. Richardson's law with T ∝ V^0.37; from memory, so a guide to within a
 * few tens of percent between 0.7 and 1.1 of rated volts. Poisoning and flashing of thoriated
 * filaments above 1.2 are left out.
 * Source: O. W. Richardson (1901) and S. Dushman for the law; constants from memory.
 */
export function emissionRatio(cathode: CathodeKind, voltsOverRated: number): number | undefined {
  return emissionState(cathode, voltsOverRated)?.ratio;
}

/** Emission of a filament off its rated volts. */
export interface EmissionState {
  /** Saturation current as a share of that at rated volts, no unit. */
  readonly ratio: number;
  /** Its slope by the volts over rated, no unit. */
  readonly slope: number;
}

/** The emission ratio of the same volts with its slope, by the same law. Undefined where that is. */
export function emissionState(
  cathode: CathodeKind,
  voltsOverRated: number,
): EmissionState | undefined {
  if (!areNotNegative(voltsOverRated)) {
    return undefined;
  }
  const { exponent, temperature } = CATHODES[cathode];
  const steepness = exponent / temperature;
  const warmth = voltsOverRated ** TEMPERATURE_POWER;
  const ratio = voltsOverRated === 0 ? 0 : warmth * warmth * Math.exp(steepness * (1 - 1 / warmth));
  if (ratio === 0) {
    return { ratio, slope: 0 };
  }
  const slope = (ratio * (2 + steepness / warmth) * TEMPERATURE_POWER) / voltsOverRated;
  return allFiniteOrUndefined({ ratio, slope });
}

/** A current held down by the emission, with its slopes. */
export interface LimitedCurrent {
  /** Amperes. */
  readonly current: number;
  /** Slope by the space-charge current, no unit, 0 … 1. */
  readonly slope: number;
  /** Slope by the saturation current, no unit, 0 … 1. */
  readonly saturationSlope: number;
}

/**
 * The current that flows when space charge would let through one current and the filament can
 * emit another: smoothly the lesser, I/(1 + (I/Is)³)^⅓.
 *
 * @param spaceCharge amperes, 0 or more @param saturation amperes, 0 or more; may be endless
 *
 * Undefined outside that. At a fifth of saturation 0.3 % low, at saturation 21 %. The shape of
 * the bend is from memory of measured curves; filaments with cold ends bend more gently.
 */
export function limitedByEmission(
  spaceCharge: number,
  saturation: number,
): LimitedCurrent | undefined {
  if (!areNotNegative(spaceCharge) || !(saturation >= 0)) {
    return undefined;
  }
  if (saturation === 0 || spaceCharge === 0) {
    return { current: 0, slope: saturation === 0 ? 0 : 1, saturationSlope: 0 };
  }
  const ratio = spaceCharge / saturation;
  if (ratio > 1e5) {
    return { current: saturation, slope: 0, saturationSlope: 1 };
  }
  const power = ratio ** SHARPNESS;
  const bend = 1 + power;
  const share = bend ** (-1 / SHARPNESS);
  const slope = share / bend;
  return allFiniteOrUndefined({
    current: spaceCharge * share,
    slope,
    saturationSlope: ratio * power * slope,
  });
}
