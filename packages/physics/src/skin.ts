import { COPPER_RESISTIVITY, MU_0 } from './constants.ts';
import { arePositive, finiteOrUndefined } from './domain.ts';
import { kelvinFunctions } from './kelvin.ts';

/** Above this the expansions for a thick wire are good to 1e-6. */
const THICK = 30;

/**
 * Skin depth of a good conductor in metres, √(2ρ/ωμ₀): 66 µm for copper at 1 megacycle.
 *
 * @param frequency hertz, above 0
 * @param resistivity ohm-metres, copper when left out
 *
 * Undefined outside that. Exact. Source: NBS Circular 74, on skin effect.
 */
export function skinDepth(frequency: number, resistivity = COPPER_RESISTIVITY): number | undefined {
  return arePositive(frequency, resistivity)
    ? finiteOrUndefined(Math.sqrt(resistivity / (Math.PI * MU_0)) / Math.sqrt(frequency))
    : undefined;
}

/**
 * The argument x = r√(ωμ₀/ρ) = d/(√2 δ) of the skin-effect functions, no unit.
 *
 * @param wireDiameter bare, metres, above 0
 * @param frequency hertz, above 0
 *
 * Undefined outside that. Exact for copper at 20 °C.
 */
export function skinArgument(wireDiameter: number, frequency: number): number | undefined {
  const depth = skinDepth(frequency);
  return depth === undefined || !arePositive(wireDiameter)
    ? undefined
    : finiteOrUndefined(wireDiameter / (Math.SQRT2 * depth));
}

/**
 * Resistance of a straight round wire over its direct-current resistance. No unit, 1 or more.
 *
 * @param x the skin argument, 0 or more
 *
 * Undefined outside that. Relative error below 1e-6: Kelvin's functions up to 30, above that
 * z + 1/4 + 3/(64z) with z = x/(2√2). A wire far from its return.
 * Source: Lord Kelvin; NBS Circular 74, tables 17 to 19.
 */
export function skinResistanceRatio(x: number): number | undefined {
  if (!(x >= 0) || x === Infinity) {
    return undefined;
  }
  if (x < 1e-3) {
    return 1;
  }
  const z = x / (2 * Math.SQRT2);
  const functions = x > THICK ? undefined : kelvinFunctions(x);
  if (functions === undefined) {
    return z + 0.25 + 3 / (64 * z);
  }
  const { ber, bei, berSlope, beiSlope } = functions;
  return ((x / 2) * (ber * beiSlope - bei * berSlope)) / (berSlope ** 2 + beiSlope ** 2);
}

/**
 * Internal inductance of a straight round wire over its low-frequency μ₀/8π per metre. No unit,
 * 1 down to 0.
 *
 * @param x the skin argument, 0 or more
 *
 * Undefined outside that. Relative error below 1e-5: Kelvin's functions up to 30, above that
 * 1/z − 3/(64z³) − 3/(128z⁴) with z = x/(2√2).
 * Source: Lord Kelvin; NBS Circular 74, tables 17 to 19.
 */
export function skinInductanceRatio(x: number): number | undefined {
  if (!(x >= 0) || x === Infinity) {
    return undefined;
  }
  if (x < 1e-3) {
    return 1;
  }
  const z = x / (2 * Math.SQRT2);
  const functions = x > THICK ? undefined : kelvinFunctions(x);
  if (functions === undefined) {
    return 1 / z - 3 / (64 * z ** 3) - 3 / (128 * z ** 4);
  }
  const { ber, bei, berSlope, beiSlope } = functions;
  return ((4 / x) * (ber * berSlope + bei * beiSlope)) / (berSlope ** 2 + beiSlope ** 2);
}

/**
 * Loss of a round wire lying across a uniform alternating field, as a share of its thick-wire
 * limit x/(2√2) times direct-current resistance: x⁴/32 for thin wire, x/(2√2) − 1/4 for thick.
 * No unit; it stands to neighbouring turns as `skinResistanceRatio` to the wire's own current.
 *
 * @param x the skin argument, 0 or more
 *
 * Undefined outside that. Relative error below 1e-4.
 * Source: S. Butterworth, Proc. Royal Society A107 (1925) 693, put in Kelvin's functions.
 */
export function transverseLossRatio(x: number): number | undefined {
  if (!(x >= 0) || x === Infinity) {
    return undefined;
  }
  const functions = x > THICK ? undefined : kelvinFunctions(x);
  if (functions === undefined) {
    const z = x / (2 * Math.SQRT2);
    return z - 0.25 - 1 / (64 * z);
  }
  const { ber, bei, berSlope, beiSlope } = functions;
  return ((x / 2) * (ber * berSlope + bei * beiSlope)) / (ber ** 2 + bei ** 2);
}
