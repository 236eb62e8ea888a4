import { logBesselI0 } from './bessel.ts';
import { areFinite, areNotNegative, arePositive, finiteOrUndefined } from './domain.ts';
import type { GridState } from './grid-current.ts';

/**
 * Fall of the mean grid voltage in volts when a small carrier comes in on a grid with leak and
 * condenser: −(E²/4) i″/(i′ + 1/R); negative.
 *
 * @param state current slopes of the grid where it rests, from `gridState`
 * @param leak ohms, above 0 @param carrier peak volts at the grid, 0 or more
 *
 * Undefined outside that. Square law: on an exponential grid 1 % high at 0.4 V₀, 4 % at
 * 0.8 V₀, 8 % at 1.2 V₀; with a great leak there it nears −E²/4V₀.
 * Source: E. L. Chaffee and G. H. Browning, "A Theoretical and Experimental Investigation of
 * Detection for Small Signals", Proc. IRE 15 (1927) 113 (from memory; the method read in an
 * abstract of later notes on it).
 */
export function gridDetectionShift(
  state: GridState,
  leak: number,
  carrier: number,
): number | undefined {
  if (!arePositive(leak) || !areNotNegative(carrier)) {
    return undefined;
  }
  const shift = (carrier * carrier * state.curvature) / (4 * (state.conductance + 1 / leak));
  return finiteOrUndefined(0 - shift);
}

/**
 * Audio voltage at the grid, peak volts, from a small modulated carrier below the corner
 * frequency: modulation times twice the carrier's shift, m E²/2 of the same factor.
 *
 * @param modulation 0 … 1
 *
 * Undefined outside that and as `gridDetectionShift`, same source and error.
 */
export function gridDetectionAudio(
  state: GridState,
  leak: number,
  carrier: number,
  modulation: number,
): number | undefined {
  const shift = gridDetectionShift(state, leak, carrier);
  return shift === undefined || !(modulation >= 0 && modulation <= 1)
    ? undefined
    : -2 * modulation * shift;
}

/**
 * Fall of the mean grid voltage in volts, as a positive figure, for a carrier of any size on a
 * grid of exponential law held at constant mean current (leak to a high voltage): V₀ ln I₀(E/V₀).
 *
 * @param carrier peak volts, 0 or more @param slopeVoltage V₀, volts, above 0
 *
 * Undefined outside that. Exact for that law; real grids leave it when positive.
 * Source: mean of an exponential over a cycle, NIST Digital Library of Mathematical Functions,
 * 10.32.1; as the large-signal limit of Chaffee and Browning's problem.
 */
export function exponentialDetectionShift(
  carrier: number,
  slopeVoltage: number,
): number | undefined {
  if (!areNotNegative(carrier) || !arePositive(slopeVoltage)) {
    return undefined;
  }
  const logarithm = logBesselI0(carrier / slopeVoltage);
  return logarithm === undefined ? undefined : finiteOrUndefined(slopeVoltage * logarithm);
}

/**
 * Audio frequency in hertz at which a grid leak and condenser have lost 3 decibels,
 * (1/R + i′)/(2πC): the grid's own conductance helps to discharge the condenser.
 *
 * @param leak ohms, above 0 @param condenser farads, above 0
 * @param gridConductance i′, siemens, 0 or more
 *
 * Undefined outside that. Exact for small signals and a low-resistance tuned circuit.
 */
export function gridLeakCorner(
  leak: number,
  condenser: number,
  gridConductance = 0,
): number | undefined {
  return arePositive(leak, condenser) && areNotNegative(gridConductance)
    ? finiteOrUndefined((1 / leak + gridConductance) / (2 * Math.PI * condenser))
    : undefined;
}

/**
 * Rise of the mean plate current in amperes when a small carrier comes in on a biased detector:
 * (E²/4) d²Ip/dEg².
 *
 * @param curvature of the plate current by the grid, amperes per volt squared
 * @param carrier peak volts, 0 or more
 *
 * Undefined outside that. Square law, with no load in the plate at audio frequency.
 * Source: second term of the series for the current, as in Chaffee and Browning (1927).
 */
export function plateDetectionRise(curvature: number, carrier: number): number | undefined {
  return areFinite(curvature) && areNotNegative(carrier)
    ? finiteOrUndefined((carrier * carrier * curvature) / 4)
    : undefined;
}
