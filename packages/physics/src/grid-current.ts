import { VOLTS_PER_KELVIN } from './constants.ts';
import { areFinite, arePositive, finiteOrUndefined, type Writable } from './domain.ts';

/** A grid as a small anode. */
export interface Grid {
  /** i₀, amperes the retarding law gives at 0 volts from F− (or the cathode), above 0. */
  readonly zeroCurrent: number;
  /** V₀, volts in which the retarding current grows e-fold, above 0. */
  readonly slopeVoltage: number;
  /** Amperes per volt to the 1.5 of the positive grid, above 0: a share of the tube's own. */
  readonly perveance: number;
}

/** Current into a grid and its slopes. */
export interface GridState {
  /** Amperes, above 0. */
  readonly current: number;
  /** Slope by the grid's volts, siemens. */
  readonly conductance: number;
  /** Second slope by the grid's volts, amperes per volt squared. */
  readonly curvature: number;
}

/**
 * Grid current of a hard vacuum tube: i₀ exp(Eg/V₀) while the grid holds most electrons back,
 * the 1.5th power once it is positive. The two meet with equal value and slope.
 *
 * @param voltage of the grid from F− or the cathode, volts
 *
 * Undefined unless finite and the grid possible. Never overflows. A guide: V₀ is kT/e of the
 * cathode at the least (0.09 volt oxide, 0.16 thoriated), 0.2 to 0.3 with the drop along a
 * direct-current filament; i₀ varies from tube to tube by several times (about 1 µA). Gas and
 * leakage, which flow the other way, are left out. The curvature jumps where the laws meet.
 * Source: retarding field by Maxwell's distribution, L. H. Germer, Physical Review 25 (1925) 795
 * (from memory); positive grid by the law of C. D. Child and I. Langmuir.
 */
export function gridState(grid: Grid, voltage: number): GridState | undefined {
  const into = { current: 0, conductance: 0, curvature: 0 };
  return gridInto(grid, voltage, into) ? into : undefined;
}

/** The same written into a place that is used again and again; false where it is undefined. */
export function gridInto(grid: Grid, voltage: number, into: Writable<GridState>): boolean {
  const { zeroCurrent, slopeVoltage, perveance } = grid;
  if (!arePositive(zeroCurrent, slopeVoltage, perveance) || !areFinite(voltage)) {
    return false;
  }
  // Value and slope agree where the power law's own voltage is 1.5 V₀.
  const shifted = 1.5 * slopeVoltage;
  const joinCurrent = perveance * shifted * Math.sqrt(shifted);
  const join = slopeVoltage * Math.log(joinCurrent / zeroCurrent);
  if (voltage <= join) {
    into.current = joinCurrent * Math.exp((voltage - join) / slopeVoltage);
    into.conductance = into.current / slopeVoltage;
    into.curvature = into.conductance / slopeVoltage;
  } else {
    const effective = voltage - join + shifted;
    const root = Math.sqrt(effective);
    into.current = perveance * effective * root;
    into.conductance = 1.5 * perveance * root;
    into.curvature = (0.75 * perveance) / root;
  }
  return areFinite(into.current, into.conductance, into.curvature);
}

/**
 * The least V₀ a cathode allows, kT/e, volts: 0.09 at 1050 kelvin, 0.16 at 1850.
 * Undefined for a temperature in kelvins not above 0. Exact.
 */
export function thermalVoltage(temperature: number): number | undefined {
  return arePositive(temperature) ? finiteOrUndefined(VOLTS_PER_KELVIN * temperature) : undefined;
}

/** Where a grid comes to rest. */
export interface GridRest {
  /** Volts from F− or the cathode. */
  readonly voltage: number;
  readonly state: GridState;
}

/**
 * Where a grid rests when its leak returns to a voltage: the current through the leak equals the
 * grid's own.
 *
 * @param returnVoltage of the leak's far end from F−, volts @param leak ohms, above 0
 *
 * Undefined outside that. Solved to 1e-9 volt by halving and Newton's iteration; there is always
 * exactly one answer. Gas current, which moves it, is left out.
 */
export function gridLeakRest(
  grid: Grid,
  returnVoltage: number,
  leak: number,
): GridRest | undefined {
  const atReturn = gridState(grid, returnVoltage);
  if (atReturn === undefined || !arePositive(leak)) {
    return undefined;
  }
  // The grid is below its return by at most what its own current there would drop in the leak.
  let low = returnVoltage - atReturn.current * leak;
  let high = returnVoltage;
  let voltage = high;
  for (let round = 0; round < 200; round += 1) {
    const state = gridState(grid, voltage);
    if (state === undefined) {
      return undefined;
    }
    const excess = state.current - (returnVoltage - voltage) / leak;
    if (excess > 0) {
      high = voltage;
    } else {
      low = voltage;
    }
    const newton = voltage - excess / (state.conductance + 1 / leak);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - voltage) < 1e-10) {
      break;
    }
    voltage = next;
  }
  const state = gridState(grid, voltage);
  return state === undefined || !areFinite(voltage) ? undefined : { voltage, state };
}
