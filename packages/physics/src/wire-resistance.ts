import { COPPER_RESISTIVITY } from './constants.ts';
import { arePositive, finiteOrUndefined } from './domain.ts';

/** Rise of copper's resistance for each kelvin, at 20 °C (NBS Circular 31, 1914). */
const TEMPERATURE_COEFFICIENT = 0.00393;

/**
 * Direct-current resistance of round annealed copper wire, ohms per metre.
 *
 * @param diameter bare, metres, above 0
 * @param celsius temperature, 20 °C when left out
 *
 * Undefined outside that. Exact for standard copper; wire on the market within 2 %.
 * Source: International Annealed Copper Standard, NBS Circular 31 (3rd edition, 1914).
 */
export function wireResistancePerMetre(diameter: number, celsius = 20): number | undefined {
  const warmth = 1 + TEMPERATURE_COEFFICIENT * (celsius - 20);
  if (!arePositive(diameter, warmth)) {
    return undefined;
  }
  return finiteOrUndefined((4 * COPPER_RESISTIVITY * warmth) / (Math.PI * diameter * diameter));
}

/**
 * Length of wire in metres on a coil: `turns` turns of a helix of radius and pitch in metres,
 * without leads. Undefined unless turns and radius are above 0 and the pitch 0 or more. Exact.
 */
export function windingWireLength(turns: number, radius: number, pitch = 0): number | undefined {
  if (!arePositive(turns, radius) || !(pitch >= 0)) {
    return undefined;
  }
  return finiteOrUndefined(turns * Math.hypot(2 * Math.PI * radius, pitch));
}
