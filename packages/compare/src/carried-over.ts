import type { Removed, Renamed } from './differences.ts';
import { junctionsOf } from './junctions.ts';
import type { PlainSet } from './plain/plain-set.ts';
import { renameFacts } from './plain/plain-set-of.ts';
import { standing } from './plain/standing.ts';

/** What of an old set is gone, and what goes by another name. */
export interface Carrying {
  readonly removed: readonly Pick<Removed, 'thing'>[];
  readonly tapsRemoved: readonly { readonly end: string }[];
  readonly renamed: readonly Renamed[];
  readonly tapsRenamed: readonly Renamed[];
}

/**
 * The old set without what is gone, under the new names: what finding differences and applying
 * them both begin with. A joint that was said by a terminal that is gone is said by another of the
 * same junction.
 */
export function carriedOver(old: PlainSet, carrying: Carrying): PlainSet {
  const goneThings = new Set(carrying.removed.map(({ thing }) => thing.id));
  const goneEnds = new Set([
    ...carrying.removed.flatMap(({ thing }) => thing.ends),
    ...carrying.tapsRemoved.map(({ end }) => end),
  ]);
  const stays = (end: string) => !goneEnds.has(end);
  const rename = renaming(old, carrying);
  const { best } = standing(old.things);
  const { members, of } = junctionsOf(old);
  const rejoin = (end: string): string => {
    const here = stays(end) ? undefined : members[of.get(end) ?? -1];
    return rename(best((here ?? []).filter(stays)) ?? end);
  };
  return {
    things: old.things
      .filter(({ id }) => !goneThings.has(id))
      .map((thing) => ({
        ...thing,
        id: rename(thing.id),
        ...(thing.owner === undefined ? {} : { owner: rename(thing.owner) }),
        ends: thing.ends.filter(stays).map(rename),
        facts: renameFacts(thing.facts, rename, rejoin),
      })),
    junctions: old.junctions
      .map((terminals) => terminals.filter(stays).map(rename))
      .filter(({ length }) => length > 0),
  };
}

/**
 * The new name of every part and terminal. A terminal follows its part: where C1 is now C2,
 * `C1.rotor` is `C2.rotor`; a tap may have a new name of its own.
 */
export function renaming(
  old: PlainSet,
  carrying: Pick<Carrying, 'renamed' | 'tapsRenamed'>,
): (id: string) => string {
  const things = new Map(carrying.renamed.map(({ before, after }) => [before, after]));
  const names = new Map(things);
  for (const { id, ends } of old.things) {
    const after = things.get(id);
    if (after === undefined) continue;
    for (const end of ends) names.set(end, after + end.slice(id.length));
  }
  for (const { before, after } of carrying.tapsRenamed) names.set(before, after);
  return (id) => names.get(id) ?? id;
}
