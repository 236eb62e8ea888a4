import { areFinite, arePositive, finiteOrUndefined, type Writable } from './domain.ts';
import { type LimitedCurrent, limitedInto } from './emission.ts';
import { type ThreeHalves, threeHalvesInto } from './three-halves.ts';

/** What a triode's plate current depends on. */
export interface Triode {
  /** G, amperes per volt to the 1.5, above 0. */
  readonly perveance: number;
  /** Amplification factor, above 0. */
  readonly mu: number;
  /** e₀, volts: contact potential and the like, added to the grid. */
  readonly offset: number;
}

/** Voltages of a triode at work, all from the filament's negative end F−, or the cathode. */
export interface TriodeVoltages {
  readonly plate: number;
  readonly grid: number;
  /** From F− to F+; 0 for an indirectly heated cathode, and with voltages from the middle of an
   * alternating-current filament. */
  readonly filament: number;
}

/** Plate current and everything Newton's iteration and the small-signal circuit need. */
export interface TriodeState {
  /** Plate current, amperes, 0 or more. */
  readonly current: number;
  /** gₘ, slope by the grid's volts, siemens. */
  readonly transconductance: number;
  /** 1/rₚ, slope by the plate's volts, siemens. */
  readonly plateConductance: number;
  /** Slope by the filament's volts, siemens; 0 or below for a positive drop. */
  readonly filamentConductance: number;
  /** Second slope by the grid's volts, amperes per volt squared, before the emission's bend. */
  readonly curvature: number;
}

/** Volts of the plate over which its current comes up from nothing; from memory. */
const PLATE_KNEE = 5;

/**
 * Plate current and slopes of a triode: G (Eg + Ep/μ + e₀)^1.5, averaged along the filament's
 * drop, held down by the emission.
 *
 * @param saturation emission of the filament, amperes, 0 or more; endless when left out
 *
 * All voltages are from the filament's negative end F−. Undefined unless they are finite and the
 * tube possible. Current at published points within about 10 % for a fitted tube; near cut-off
 * real tubes draw more (their μ is not even). The grid's share at positive grid is left out, and
 * the fall to nothing below 5 volts of plate is from memory. At cut-off all is 0.
 * Source: C. D. Child (1911), I. Langmuir (1913).
 */
export function triodeState(
  triode: Triode,
  voltages: TriodeVoltages,
  saturation = Number.POSITIVE_INFINITY,
): TriodeState | undefined {
  const { plate, grid, filament } = voltages;
  const into = {
    current: 0,
    transconductance: 0,
    plateConductance: 0,
    filamentConductance: 0,
    curvature: 0,
  };
  return triodeInto(triode, plate, grid, filament, saturation, into) ? into : undefined;
}

/** Room for what one call works out before it is used up. */
const law: Writable<ThreeHalves> = { value: 0, slope: 0, curvature: 0, dropSlope: 0 };
const limited: Writable<LimitedCurrent> = { current: 0, slope: 0, saturationSlope: 0 };

/** The same written into a place that is used again and again; false where it is undefined. */
export function triodeInto(
  triode: Triode,
  plate: number,
  grid: number,
  filament: number,
  saturation: number,
  into: Writable<TriodeState>,
): boolean {
  const { perveance, mu, offset } = triode;
  if (!arePositive(perveance, mu) || !areFinite(offset, plate, grid, filament)) {
    return false;
  }
  const spread = 1 + 1 / mu;
  threeHalvesInto(grid + plate / mu + offset, filament * spread, law);
  // Of the current a plate still takes near the filament's potential this share, smoothly 0 to 1.
  const along = Math.min(1, Math.max(0, plate / PLATE_KNEE));
  const share = along * along * (3 - 2 * along);
  const shareSlope = (6 * along * (1 - along)) / PLATE_KNEE;
  if (!limitedInto(perveance * law.value * share, saturation, limited)) {
    return false;
  }
  const scale = perveance * limited.slope;
  into.current = limited.current;
  into.transconductance = scale * share * law.slope;
  into.plateConductance = scale * ((share * law.slope) / mu + shareSlope * law.value);
  into.filamentConductance = scale * share * law.dropSlope * spread;
  into.curvature = scale * share * law.curvature;
  return areFinite(
    into.current,
    into.transconductance,
    into.plateConductance,
    into.filamentConductance,
    into.curvature,
  );
}

/**
 * Plate resistance in ohms of a state, 1/slope; undefined at cut-off, where it is endless.
 */
export function plateResistance(state: TriodeState): number | undefined {
  return arePositive(state.plateConductance)
    ? finiteOrUndefined(1 / state.plateConductance)
    : undefined;
}
