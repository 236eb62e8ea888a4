import { PERIOD_VELOCITY_OF_LIGHT, VELOCITY_OF_LIGHT } from './constants.ts';
import { arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Frequency in hertz at which an inductance and a capacity resonate, 1/(2π√(LC)).
 *
 * @param inductance henries, above 0 @param capacitance farads, above 0
 *
 * Undefined outside that. Exact for a circuit without loss. Source: Lord Kelvin (1853).
 */
export function resonantFrequency(inductance: number, capacitance: number): number | undefined {
  if (!arePositive(inductance, capacitance)) {
    return undefined;
  }
  return finiteOrUndefined(1 / (2 * Math.PI * Math.sqrt(inductance) * Math.sqrt(capacitance)));
}

/**
 * The product LC in henry-farads that resonates at a frequency in hertz, above 0; divided by the
 * one it gives the other. Undefined outside that. Exact.
 */
export function resonanceProduct(frequency: number): number | undefined {
  return arePositive(frequency) ? finiteOrUndefined((2 * Math.PI * frequency) ** -2) : undefined;
}

/**
 * Wavelength in metres of a frequency in hertz, above 0, and the reverse: the same division.
 *
 * @param periodTable divide into 299,820 as the tables of the 1920s did, 0.009 % more
 *
 * Undefined outside that. Exact. Source: velocity of light; Bureau of Standards table of 1923
 * for the period figure (from memory).
 */
export function wavelength(frequency: number, periodTable = false): number | undefined {
  const velocity = periodTable ? PERIOD_VELOCITY_OF_LIGHT : VELOCITY_OF_LIGHT;
  return arePositive(frequency) ? finiteOrUndefined(velocity / frequency) : undefined;
}

/** Reactance in ohms of an inductance in henries at a frequency in hertz; undefined if negative. */
export function inductiveReactance(inductance: number, frequency: number): number | undefined {
  return inductance >= 0 && frequency >= 0
    ? finiteOrUndefined(2 * Math.PI * frequency * inductance)
    : undefined;
}

/**
 * Reactance in ohms, as a positive figure, of a capacity in farads at a frequency in hertz, both
 * above 0; undefined outside that.
 */
export function capacitiveReactance(capacitance: number, frequency: number): number | undefined {
  return arePositive(capacitance, frequency)
    ? finiteOrUndefined(1 / (2 * Math.PI * frequency * capacitance))
    : undefined;
}

/**
 * Impedance in ohms of a coil and condenser in parallel at their resonance, Q ω L.
 *
 * @param inductance henries @param q of the coil @param frequency of resonance, hertz; above 0
 *
 * Undefined outside that. Short by 1/Q² of itself: 0.01 % at Q 100.
 */
export function parallelResonantImpedance(
  inductance: number,
  q: number,
  frequency: number,
): number | undefined {
  return arePositive(inductance, q, frequency)
    ? finiteOrUndefined(2 * Math.PI * frequency * inductance * q)
    : undefined;
}

/**
 * Bandwidth in hertz between the half-power points, f₀/Q. Undefined unless both are above 0.
 * Exact for the series circuit.
 */
export function halfPowerBandwidth(frequency: number, q: number): number | undefined {
  return arePositive(frequency, q) ? finiteOrUndefined(frequency / q) : undefined;
}

/**
 * Response of a tuned circuit off its resonance over that at resonance, 0 … 1, no unit:
 * 1/√(1 + Q²(f/f₀ − f₀/f)²).
 *
 * @param frequency @param resonance hertz, above 0 @param q above 0
 *
 * Undefined outside that. Exact for the current of a series circuit. Several circuits alike that
 * do not react on one another: the power of their number.
 */
export function resonanceResponse(
  frequency: number,
  resonance: number,
  q: number,
): number | undefined {
  if (!arePositive(frequency, resonance, q)) {
    return undefined;
  }
  return 1 / Math.hypot(1, q * (frequency / resonance - resonance / frequency));
}

/**
 * The universal resonance curve 1/√(1 + (2x)²), no unit.
 *
 * @param x Q times the fraction off tune, Q Δf/f₀, either sign
 *
 * Undefined unless a number. Against the exact response off by about the fraction off tune.
 * Source: the form Y/Y₀ = 1/(1 + 2jδQ) of the textbooks.
 */
export function universalResonanceCurve(x: number): number | undefined {
  return Number.isNaN(x) ? undefined : 1 / Math.hypot(1, 2 * x);
}
