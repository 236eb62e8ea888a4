import { areFinite, areNotNegative, arePositive, type Writable } from './domain.ts';

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
  const into = { ratio: 0, slope: 0 };
  return emissionInto(cathode, voltsOverRated, into) ? into : undefined;
}

/** The same written into a place that is used again and again; false where it is undefined. */
export function emissionInto(
  cathode: CathodeKind,
  voltsOverRated: number,
  into: Writable<EmissionState>,
): boolean {
  if (!areNotNegative(voltsOverRated)) {
    return false;
  }
  const { exponent, temperature } = CATHODES[cathode];
  const steepness = exponent / temperature;
  const warmth = voltsOverRated ** TEMPERATURE_POWER;
  const ratio = voltsOverRated === 0 ? 0 : warmth * warmth * Math.exp(steepness * (1 - 1 / warmth));
  into.ratio = ratio;
  into.slope =
    ratio === 0 ? 0 : (ratio * (2 + steepness / warmth) * TEMPERATURE_POWER) / voltsOverRated;
  return areFinite(ratio, into.slope);
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
  const into = { current: 0, slope: 0, saturationSlope: 0 };
  return limitedInto(spaceCharge, saturation, into) ? into : undefined;
}

/** The same written into a place that is used again and again; false where it is undefined. */
export function limitedInto(
  spaceCharge: number,
  saturation: number,
  into: Writable<LimitedCurrent>,
): boolean {
  if (!areNotNegative(spaceCharge) || !(saturation >= 0)) {
    return false;
  }
  into.saturationSlope = 0;
  if (saturation === 0 || spaceCharge === 0) {
    into.current = 0;
    into.slope = saturation === 0 ? 0 : 1;
    return true;
  }
  if (saturation === Number.POSITIVE_INFINITY) {
    into.current = spaceCharge;
    into.slope = 1;
    return true;
  }
  const ratio = spaceCharge / saturation;
  if (ratio > 1e5) {
    into.current = saturation;
    into.slope = 0;
    into.saturationSlope = 1;
    return true;
  }
  const power = ratio * ratio * ratio;
  const bend = 1 + power;
  const share = 1 / Math.cbrt(bend);
  into.current = spaceCharge * share;
  into.slope = share / bend;
  into.saturationSlope = ratio * power * into.slope;
  return areFinite(into.current, into.slope, into.saturationSlope);
}
