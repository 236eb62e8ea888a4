import { type Conduction, openVolts, type Part } from '@setwright/circuit';
import { type ReturnEnd, returnEnds } from '../grids/return-path.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { outsideBridges } from '../wiring/outside.ts';
import type { Bridge } from '../wiring/regions.ts';
import { isUnwired } from '../wiring/unwired.ts';
import { type Rails, railsOf } from './rails.ts';

/** Tubes whose plate has no supply. */
export interface Unsupplied {
  /** Direct current reaches no positive tap at all. */
  readonly none: ReadonlySet<TubeAt>;
  /** It reaches the positive side of the filament supply and nothing higher. */
  readonly low: ReadonlySet<TubeAt>;
}

/**
 * The plates without supply at one position of the set. Passed over are plates joined to nothing
 * at all, tubes used as diodes and tubes of unknown type.
 */
export function unsuppliedPlates(
  conduction: Conduction,
  tubes: readonly TubeAt[],
  rails: Rails = railsOf(conduction),
  bridges: readonly Bridge[] = outsideBridges(conduction.circuit),
): Unsupplied {
  const none = new Set<TubeAt>();
  const low = new Set<TubeAt>();
  for (const tube of tubes) {
    const { plate, part } = tube;
    if (!plate || isUnwired(conduction, plate) || isDiode(tube) || !part.tubeType) continue;
    const ends = returnEnds(conduction, rails, tube, plate.junction, { bridges });
    if (ends.some((end) => isPositive(end, conduction, rails, tube))) continue;
    const { filamentPlus } = tube;
    const isLow = ({ junction, rail }: ReturnEnd): boolean =>
      rail?.kind === 'filament'
        ? [...rail.sides.values()].includes('positive')
        : junction === filamentPlus?.junction;
    if (ends.some(isLow)) low.add(tube);
    else none.add(tube);
  }
  return { none, low };
}

function isPositive(
  { rail }: ReturnEnd,
  conduction: Conduction,
  rails: Rails,
  tube: TubeAt,
): boolean {
  if (rail?.kind === 'plate') return true;
  if (rail?.kind !== 'bias') return false;
  if ((openVolts(rail.part, rail.tap) ?? 0) > 0) return true;
  // A small cell in a plate lead, such as one that holds a meter back, lets the supply through.
  return otherEnds(rail.part, rail.tap.end).some((junction) =>
    returnEnds(conduction, rails, tube, junction).some((end) => end.rail?.kind === 'plate'),
  );
}

function otherEnds(supply: Part, tap: string): readonly number[] {
  return supply.ends.filter(({ name }) => name !== tap).map(({ junction }) => junction);
}
