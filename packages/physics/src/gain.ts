import { areFinite, areNotNegative, arePositive, finiteOrUndefined } from './domain.ts';

/**
 * Voltage gain of a tube into a resistance, μR/(rₚ + R), no unit, positive.
 *
 * @param mu amplification factor @param plateResistance ohms @param load ohms, all above 0
 *
 * Undefined outside that. Exact for small signals at a frequency where capacities do not count.
 */
export function stageGain(mu: number, plateResistance: number, load: number): number | undefined {
  return arePositive(mu, plateResistance, load)
    ? finiteOrUndefined((mu * load) / (plateResistance + load))
    : undefined;
}

/**
 * Input capacity in farads of a tube at work, Cgf + Cgp (1 + A cos θ).
 *
 * @param gridFilament @param gridPlate capacities, farads, 0 or more
 * @param gain A, 0 or more @param angle θ of the load's impedance, radians; 0 when left out
 *
 * Undefined outside that. Exact for small signals.
 * Source: J. M. Miller, Bureau of Standards Scientific Paper 351 (1919) (from memory).
 */
export function millerCapacitance(
  gridFilament: number,
  gridPlate: number,
  gain: number,
  angle = 0,
): number | undefined {
  return areNotNegative(gridFilament, gridPlate, gain) && areFinite(angle)
    ? finiteOrUndefined(gridFilament + gridPlate * (1 + gain * Math.cos(angle)))
    : undefined;
}

/**
 * Input conductance in siemens of a tube at work, through its grid–plate capacity:
 * −ω Cgp A sin θ. Negative for an inductive plate load (θ above 0): the plate feeds the grid.
 *
 * @param frequency hertz @param gridPlate farads @param gain A, all 0 or more
 * @param angle by which the plate's alternating voltage leads that of a resistance load, radians
 *
 * Undefined outside that. Exact for small signals.
 * Source: J. M. Miller, Bureau of Standards Scientific Paper 351 (1919) (from memory).
 */
export function millerConductance(
  frequency: number,
  gridPlate: number,
  gain: number,
  angle: number,
): number | undefined {
  return areNotNegative(frequency, gridPlate, gain) && areFinite(angle)
    ? finiteOrUndefined(0 - 2 * Math.PI * frequency * gridPlate * gain * Math.sin(angle))
    : undefined;
}

/**
 * Neutralizing capacity in farads that balances a tube's grid–plate capacity through a winding
 * in opposite phase, Cgp nₚ/nₙ.
 *
 * @param gridPlate farads @param plateTurns @param neutralizingTurns all above 0
 *
 * Undefined outside that. Exact when the two windings are coupled all but fully.
 */
export function neutralizingCapacitance(
  gridPlate: number,
  plateTurns: number,
  neutralizingTurns: number,
): number | undefined {
  return arePositive(gridPlate, plateTurns, neutralizingTurns)
    ? finiteOrUndefined((gridPlate * plateTurns) / neutralizingTurns)
    : undefined;
}
