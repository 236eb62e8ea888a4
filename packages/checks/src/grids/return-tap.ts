import { type Fix, openVolts, type Part } from '@setwright/circuit';
import { retargeted } from '../fixes/retarget.ts';
import type { Study } from '../study.ts';
import type { Rails } from '../supplies/rails.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { returnEnds, wayTo } from './return-path.ts';

/** A C tap fits when it is no further from what is wanted, in volts or as a share. */
const FITS_VOLTS = 1.5;
const FITS_SHARE = 0.2;

/** A tap that a grid returns to. */
interface ReturnTap {
  /** The C battery; undefined where the grid returns to the filament's. */
  readonly battery: Part | undefined;
  readonly name: string;
  readonly junction: number;
  /** Volts of the tap above its battery's zero. */
  readonly stands: number;
}

/** The one tap that a tube's grid returns to. */
export function returnTap(
  study: Study,
  rails: Rails,
  { grid, ...rest }: TubeAt,
): ReturnTap | undefined {
  if (!grid) return undefined;
  const ends = returnEnds(study.conduction, rails, { grid, ...rest }, grid.junction);
  const [end] = ends;
  if (!end || ends.length !== 1 || end.rail?.kind !== 'bias') return undefined;
  const stands = openVolts(end.rail.part, end.rail.tap);
  if (stands === undefined) return undefined;
  return { battery: end.rail.part, name: end.rail.tap.end, junction: end.junction, stands };
}

/** The tap of the same battery that comes nearest to what is wanted, where one fits. */
export function betterTap(from: ReturnTap, change: number): string | undefined {
  const wanted = from.stands + change;
  let best: string | undefined;
  let least = Math.max(FITS_VOLTS, Math.abs(wanted) * FITS_SHARE);
  for (const tap of from.battery?.supplyTaps ?? []) {
    const stands = from.battery && openVolts(from.battery, tap);
    if (stands === undefined || tap.end === from.name) continue;
    const distance = Math.abs(stands - wanted);
    if (distance > least) continue;
    least = distance;
    best = tap.end;
  }
  return best;
}

/** The fix that leads a grid's return to another tap. */
export function returnedTo(
  study: Study,
  tube: TubeAt,
  tap: ReturnTap,
  better: string,
): readonly Fix[] {
  const grid = tube.grid?.junction;
  if (grid === undefined) return [];
  const last = wayTo(study.conduction, grid, tap.junction).at(-1);
  return last ? retargeted(study.circuit, last.to, better) : [];
}
