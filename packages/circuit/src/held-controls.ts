import type { PossibleBranch, PossibleConduction } from './any-position.ts';
import type { Part } from './model.ts';
import type { Plug } from './positions.ts';
import { positionOf, type Settings } from './settings.ts';

/** How a control is held: a position's index, or a potentiometer's arm at 0 (start) or 1. */
export type Held = ReadonlyMap<string, number>;

/** The controls of a set whose positions are searched all at once. */
export interface OpenControls {
  readonly possible: PossibleConduction;
  readonly base: Settings;
  readonly plugs: readonly Plug[];
  /** Positions that differ electrically, by control. */
  readonly positions: ReadonlyMap<string, readonly number[]>;
}

/** Which branches can be there while some controls are held. */
export function possibly(search: OpenControls, held: Held): (branch: PossibleBranch) => boolean {
  return (branch) =>
    branch.closedAt === undefined || allowed(search, branch.part, held, branch.closedAt).length > 0;
}

/** Of these positions of a part, those that it can stand at while some controls are held. */
export function allowed(
  search: OpenControls,
  part: Part,
  held: Held,
  positions: readonly number[],
): readonly number[] {
  const standing = held.get(part.name);
  if (standing !== undefined) return positions.includes(standing) ? [standing] : [];
  const differing = search.positions.get(part.name);
  // A part with one electrical way to stand stands as it does.
  if (!differing) {
    const stands = positionOf(part, search.base);
    return positions.includes(stands) ? [stands] : [];
  }
  return positions.filter(
    (position) =>
      differing.includes(position) &&
      !search.plugs.some(
        (plug) =>
          plug.jacks.get(part.name)?.has(position) &&
          [...plug.jacks].some(([jack, plugged]) => {
            const other = jack === part.name ? undefined : held.get(jack);
            return other !== undefined && plugged.has(other);
          }),
      ),
  );
}

/** The fewest ohms a branch can have while some controls are held. */
export function leastOhms(branch: PossibleBranch, held: Held): number {
  if (branch.side === undefined) return branch.leastOhms;
  const arm = held.get(branch.part.name);
  if (arm === undefined) return 0;
  const whole = branch.part.values.resistance?.value ?? 0;
  return (branch.side === 'start' ? arm : 1 - arm) * Math.max(0, whole);
}
