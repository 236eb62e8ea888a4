import { type Grid, gridLeakRest } from '@setwright/physics';

/**
 * The grid of a usual hard battery tube, where no more is known of one: 1 µA at the voltage of F−,
 * growing e-fold in a quarter volt, and about 1 mA at 5 V. From memory; single tubes differ several
 * times, so it is good for saying which of two ways is plainly better, and for little more.
 */
export const typicalGrid: Grid = {
  zeroCurrent: 1e-6,
  slopeVoltage: 0.25,
  perveance: 1e-4,
};

/** The least resistance of a return that counts, in ohms. */
const LEAST_OHMS = 1;

/** Amperes that a usual grid draws when its return, of so many ohms, stands at so many volts. */
export function typicalGridCurrent(returnVolts: number, ohms: number): number | undefined {
  return gridLeakRest(typicalGrid, returnVolts, Math.max(LEAST_OHMS, ohms))?.state.current;
}
