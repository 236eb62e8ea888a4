import { areFinite, areNotNegative, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Resistance in ohms of a voltmeter on a range: ohms per volt times the full scale in volts.
 * Undefined unless both are above 0. Exact by definition.
 */
export function meterResistance(ohmsPerVolt: number, fullScale: number): number | undefined {
  return arePositive(ohmsPerVolt, fullScale)
    ? finiteOrUndefined(ohmsPerVolt * fullScale)
    : undefined;
}

/**
 * What a meter shows across a point that has `voltage` without it: V Rm/(Rm + Rs), volts.
 *
 * @param voltage volts, either sign @param source resistance seen from the point, ohms, 0 or more
 * @param meter resistance, ohms, above 0
 *
 * Undefined outside that. Exact where the circuit is linear.
 * Source: Thévenin's theorem; ohms per volt of period service meters as in C. T. Burke (1928).
 */
export function meterReading(voltage: number, source: number, meter: number): number | undefined {
  return areFinite(voltage) && areNotNegative(source) && arePositive(meter)
    ? finiteOrUndefined((voltage * meter) / (meter + source))
    : undefined;
}

/** What the point has without the meter, volts: the reverse of `meterReading`, same limits. */
export function unloadedVoltage(
  reading: number,
  source: number,
  meter: number,
): number | undefined {
  return areFinite(reading) && areNotNegative(source) && arePositive(meter)
    ? finiteOrUndefined((reading * (meter + source)) / meter)
    : undefined;
}
