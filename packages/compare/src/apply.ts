import { carriedOver } from './carried-over.ts';
import type { Differences } from './differences.ts';
import type { PlainSet, Thing } from './plain/plain-set.ts';
import { inOrder } from './plain/plain-set-of.ts';

/**
 * The new set, of the old one and how it differs. Pure; differences that do not belong to the set
 * give a set that means little, but nothing is thrown.
 */
export function applyDifferences(old: PlainSet, differences: Differences): PlainSet {
  const carried = carriedOver(old, differences);
  const things = new Map<string, Thing>(carried.things.map((thing) => [thing.id, thing]));
  for (const { thing, end } of differences.tapsAdded) {
    const part = things.get(thing);
    if (part) things.set(thing, { ...part, ends: [...part.ends, end] });
  }
  for (const { thing } of differences.added) things.set(thing.id, thing);
  for (const { thing: id, kind, slot, after } of differences.changed) {
    const thing = things.get(id);
    if (!thing) continue;
    const { [slot]: _, ...others } = thing.facts;
    const facts = after.length > 0 ? { ...others, [slot]: after } : others;
    things.set(id, { ...thing, kind, facts });
  }
  return inOrder({ things: [...things.values()], junctions: rejoined(carried, differences) });
}

/** Junctions after ends have moved and new ones have come. */
function rejoined(carried: PlainSet, { added, tapsAdded, moved }: Differences): string[][] {
  const moving = new Set(moved.flatMap(({ ends }) => ends));
  const parent = new Map<string, string>();
  const root = (id: string): string => {
    let at = id;
    for (let above = parent.get(at); above !== undefined; above = parent.get(at)) at = above;
    return at;
  };
  const join = (one: string, other: string | undefined) => {
    if (other === undefined) return;
    const [a, b] = [root(one), root(other)];
    if (a !== b) parent.set(a, b);
  };
  const chain = (ends: readonly string[]) => {
    for (const end of ends.slice(1)) join(end, ends[0]);
  };
  for (const terminals of carried.junctions) chain(terminals.filter((id) => !moving.has(id)));
  for (const { ends, to } of moved) {
    chain(ends);
    if (ends[0] !== undefined) join(ends[0], to);
  }
  const ends = [...added.flatMap((each) => each.ends), ...tapsAdded];
  for (const { end, to } of ends) join(end, to);
  // What something came to may have been joined to nothing before.
  const seats = [...ends, ...moved].flatMap(({ to }) => to ?? []);
  const newcomers = ends.map(({ end }) => end);
  const all = new Set([...carried.junctions.flat(), ...moving, ...newcomers, ...seats]);
  const members = new Map<string, string[]>();
  for (const id of all) {
    const at = root(id);
    members.set(at, [...(members.get(at) ?? []), id]);
  }
  return [...members.values()].filter(({ length }) => length > 1);
}
