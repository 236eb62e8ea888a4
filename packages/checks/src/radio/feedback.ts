import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { coilOf, endsAreUsed, type GridCircuit, type PlateCircuit } from './radio-wiring.ts';
import { fieldBetween } from './winding-fields.ts';

/** A winding in a tube's plate circuit on the coil that drives its own grid: a tickler. */
export interface Feedback {
  readonly tube: TubeAt;
  readonly grid: GridCircuit;
  readonly plate: PlateCircuit;
  /**
   * Henries between the two, positive where the plate's current helps the grid; undefined where
   * the text does not tell how the windings lie or does not name both ends of each.
   *
   * Along L·C·v″ + (R·C − gm·M)·v′ + v = 0 for the grid's volts v: with M positive the plate makes
   * up for losses. Source: the usual analysis of the coupled oscillator in the handbooks.
   */
  readonly helps: number | undefined;
  /** Whether the winding turns, or is told to be set, so that both signs are to be had. */
  readonly isMovable: boolean;
}

/** Every tube with a winding of its plate on the coil of its own grid. */
export function feedbacks(study: Study): readonly Feedback[] {
  const { radio, circuit } = study;
  const grids = new Map(radio.gridCircuits.map((each) => [each.tube, each]));
  return radio.plateCircuits.flatMap((plate): readonly Feedback[] => {
    const grid = grids.get(plate.tube);
    if (!grid || grid.winding === plate.winding) return [];
    const coil = coilOf(grid.winding);
    if (coil !== coilOf(plate.winding)) return [];
    const isSaid = endsAreUsed(circuit, grid.gridEnd, grid.lowEnd, plate.plateEnd, plate.farEnd);
    const field = isSaid
      ? fieldBetween(
          radio.coil(coil),
          { winding: grid.winding, from: grid.lowEnd, to: grid.gridEnd },
          { winding: plate.winding, from: plate.plateEnd, to: plate.farEnd },
        )
      : undefined;
    const isMovable =
      [grid.winding, plate.winding].some(({ setting }) => setting !== undefined) ||
      circuit.dials.some(
        ({ drives }) => drives.includes(plate.winding.name) || drives.includes(grid.winding.name),
      );
    // Next to no coupling has no sign to speak of: a winding set at right angles.
    const helps = field !== undefined && Math.abs(field) > 1e-12 ? field : undefined;
    return [{ tube: plate.tube, grid, plate, helps, isMovable }];
  });
}
