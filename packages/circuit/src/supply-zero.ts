import type { PossibleBranch } from './any-position.ts';
import { leastFirst } from './heap.ts';
import { allowed, type Held, leastOhms, type OpenControls, possibly } from './held-controls.ts';
import type { Part } from './model.ts';
import { positionOf, type Settings } from './settings.ts';
import { zeroTap } from './supplies.ts';

/** The junctions joined to a supply's zero by nothing but wire, at every setting left open. */
export function zeroRegion(search: OpenControls, supply: Part, held: Held): ReadonlySet<number> {
  return joinedToZero(search, supply, (branch) => {
    const { closedAt, part } = branch;
    if (closedAt === undefined) return isWire(branch);
    const differing = search.positions.get(part.name);
    if (!differing) return closedAt.includes(positionOf(part, search.base));
    const open = allowed(search, part, held, differing);
    return open.length > 0 && open.every((position) => closedAt.includes(position));
  });
}

/** Whether a branch without contacts joins its ends outright, whatever the controls do. */
function isWire({ part, direct }: PossibleBranch): boolean {
  if (part.kind === 'rheostat' || part.kind === 'potentiometer') return false;
  return direct.kind === 'conducts' && direct.ohms === 0;
}

/** Every junction that these branches tie to a supply's zero; notes by which it was come to. */
function joinedToZero(
  search: OpenControls,
  supply: Part,
  joins: (branch: PossibleBranch) => boolean,
  arrivedBy?: Map<number, PossibleBranch>,
): ReadonlySet<number> {
  const zero = zeroTap(supply);
  const start = supply.ends.find((end) => end.name === zero?.end)?.junction;
  if (start === undefined) return new Set();
  const region = new Set([start]);
  for (const here of region) {
    for (const branch of search.possible.at[here] ?? []) {
      if (branch.part === supply || !joins(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (region.has(there)) continue;
      region.add(there);
      arrivedBy?.set(there, branch);
    }
  }
  return region;
}

/** The fewest ohms from every junction back to a supply's zero; none for what is not tied to it. */
export function ohmsFromZero(
  search: OpenControls,
  supply: Part,
  held: Held,
  region: ReadonlySet<number>,
): ReadonlyMap<number, number> {
  const can = possibly(search, held);
  const ohms = new Map<number, number>();
  const settled = new Set<number>();
  const queue = leastFirst();
  for (const junction of region) {
    ohms.set(junction, 0);
    queue.push(junction, 0, 0);
  }
  for (let next = queue.pop(); next; next = queue.pop()) {
    const here = next.item;
    if (settled.has(here)) continue;
    settled.add(here);
    for (const branch of search.possible.at[here] ?? []) {
      if (branch.part === supply || !can(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      const ohmsThere = next.first + leastOhms(branch, held);
      if (ohmsThere >= (ohms.get(there) ?? Number.POSITIVE_INFINITY)) continue;
      ohms.set(there, ohmsThere);
      queue.push(there, ohmsThere, 0);
    }
  }
  return ohms;
}

/**
 * Where a junction of the path is joined to the supply's zero by wire at these settings, nothing
 * goes on from there; the control on that wire that is not held yet, and may stand otherwise.
 */
export function shortedToZero(
  search: OpenControls,
  supply: Part,
  settings: Settings,
  junctions: readonly number[],
  held: Held,
): Part | undefined {
  const arrivedBy = new Map<number, PossibleBranch>();
  const region = joinedToZero(
    search,
    supply,
    (branch) =>
      branch.closedAt === undefined
        ? isWire(branch)
        : branch.closedAt.includes(positionOf(branch.part, settings)),
    arrivedBy,
  );
  const shorted = junctions.find((junction) => region.has(junction));
  if (shorted === undefined) return undefined;
  let here = shorted;
  for (let branch = arrivedBy.get(here); branch; branch = arrivedBy.get(here)) {
    if (search.positions.has(branch.part.name) && !held.has(branch.part.name)) return branch.part;
    here = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
  }
  return undefined;
}
