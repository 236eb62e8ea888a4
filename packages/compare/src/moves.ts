import type { Added, EndAdded, Moved, TapAdded } from './differences.ts';
import { junctionsOf, livesOnIn } from './junctions.ts';
import type { PlainSet } from './plain/plain-set.ts';
import { standing } from './plain/standing.ts';

/** How ends came to be joined otherwise, and where new ends went. */
export interface MovesAndArrivals {
  readonly moved: readonly Moved[];
  readonly added: readonly Added[];
  readonly tapsAdded: readonly TapAdded[];
}

/**
 * What has moved and what has come.
 *
 * @param carried the old set without what is gone, under the new names
 */
export function movesAndArrivals(carried: PlainSet, now: PlainSet): MovesAndArrivals {
  const before = junctionsOf(carried);
  const after = junctionsOf(now);
  const { firm, best } = standing(now.things);
  const livesOn = livesOnIn(before, after, firm);
  const groups = new Map<string, { from: number; to: number; ends: string[] }>();
  const staying = after.members.map((): string[] => []);
  for (const [end, to] of after.of) {
    const from = before.of.get(end);
    if (from === undefined) continue;
    if (livesOn.get(from) === to) staying[to]?.push(end);
    else {
      const key = `${from} ${to}`;
      const group = groups.get(key) ?? { from, to, ends: [] };
      group.ends.push(end);
      groups.set(key, group);
    }
  }
  const moving = new Set([...groups.values()].flatMap(({ ends }) => ends));
  const anchorOf = anchors(staying, after.members, best);
  const leftBehind = (from: number, ends: readonly string[]): string | undefined => {
    const others = (before.members[from] ?? []).filter((end) => !ends.includes(end));
    const staying = best(others.filter((end) => !moving.has(end)));
    // Where all went their ways, most of them were not taken off the few.
    return staying ?? (ends.length > 1 ? undefined : best(others));
  };
  const moved = [...groups.values()].map(
    ({ from, to, ends }): Moved => ({ ends, from: leftBehind(from, ends), to: anchorOf(to, ends) }),
  );
  const known = new Map(carried.things.map((thing) => [thing.id, thing]));
  const arrival = (end: string): EndAdded => ({
    end,
    to: anchorOf(after.of.get(end) ?? -1, [end]),
  });
  const added = now.things
    .filter(({ id }) => !known.has(id))
    .map((thing): Added => ({ thing, ends: thing.ends.map(arrival) }));
  const tapsAdded = now.things.flatMap(({ id, ends }) =>
    (known.has(id) ? ends : [])
      .filter((end) => !before.of.has(end))
      .map((end): TapAdded => ({ thing: id, ...arrival(end) })),
  );
  return { moved, added, tapsAdded };
}

/**
 * A terminal of a junction to join newcomers to: the best known of all that are on it. If that came
 * itself, it is joined to one that was there already, or where none was to the next best known.
 */
function anchors(
  staying: readonly (readonly string[])[],
  members: readonly (readonly string[])[],
  best: (terminals: readonly string[]) => string | undefined,
): (junction: number, newcomers: readonly string[]) => string | undefined {
  const seats = members.map((terminals) => best(terminals));
  return (junction, newcomers) => {
    const seat = seats[junction];
    if (seat !== undefined && !newcomers.includes(seat)) return seat;
    const others = (members[junction] ?? []).filter((end) => !newcomers.includes(end));
    return best(staying[junction] ?? []) ?? best(others);
  };
}
