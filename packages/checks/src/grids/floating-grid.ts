import type { Conduction } from '@setwright/circuit';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { type Bridge, regionsOf } from '../wiring/regions.ts';
import { isUnwired } from '../wiring/unwired.ts';

/** Tubes whose grid no direct current can reach from their own filament or cathode. */
export interface Floating {
  readonly tubes: ReadonlySet<TubeAt>;
  /** Junction to island, over all that passes direct current. */
  readonly islands: readonly number[];
}

/**
 * The floating grids of a set at one position. A condenser never counts as a path, nor does a
 * tube's cold electrode. Passed over are grids joined to nothing at all, tubes used as diodes and
 * tubes whose filament is joined to nothing. Linear in the set.
 */
export function floatingGrids(
  conduction: Conduction,
  tubes: readonly TubeAt[],
  bridges: readonly Bridge[] = outsideBridges(conduction.circuit),
): Floating {
  const islands = regionsOf(conduction, ({ direct }) => direct.kind !== 'blocks', bridges);
  const floating = tubes.filter((tube) => {
    const { grid } = tube;
    if (!grid || isUnwired(conduction, grid) || isDiode(tube)) return false;
    const homes = emittersOf(tube);
    if (homes.every((end) => isUnwired(conduction, end))) return false;
    return homes.every((end) => islands[end.junction] !== islands[grid.junction]);
  });
  return { tubes: new Set(floating), islands };
}

/** The ends of a tube that a grid may return to: cathode and both ends of the filament. */
export function emittersOf(tube: TubeAt) {
  return [tube.cathode, tube.filamentMinus, tube.filamentPlus].filter((end) => end !== undefined);
}
