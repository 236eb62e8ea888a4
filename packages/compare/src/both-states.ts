import { assemble, type Circuit, endId, type Join, type Part } from '@setwright/circuit';
import { renaming } from './carried-over.ts';
import type { Differences } from './differences.ts';
import { leadNames } from './plain/lead-names.ts';
import { asWritten, plainSetOf } from './plain/plain-set-of.ts';

/** Two states of a set as one circuit, for drawing both at once. */
export interface BothStates {
  /** The new set, and the parts that it lost where they stood. */
  readonly circuit: Circuit;
  /** What a part of the old set that is gone is called there, by its old name. */
  readonly goneAs: ReadonlyMap<string, string>;
  /** What a part of the new set is called there, by its id in the differences. */
  readonly nowAs: (id: string) => string;
}

/** Puts the parts that a set lost back into the new set, beside all that it has now. */
export function bothStates(old: Circuit, now: Circuit, differences: Differences): BothStates {
  const { removed } = differences;
  const rename = renaming(plainSetOf(old), differences);
  const goneAs = new Map<string, string>();
  const oldLeads = leadNames(asWritten(old), old);
  const nowLeads = leadNames(asWritten(now), now);
  const rawOf = (id: string): string =>
    [...oldLeads].find(([, canonical]) => canonical === id)?.[0] ?? id;
  for (const { thing } of removed) {
    const raw = rawOf(thing.id);
    if (!old.partNamed.has(raw)) continue;
    let name = raw;
    while (now.partNamed.has(name)) name += ' (old)';
    goneAs.set(raw, name);
  }
  // A winding goes by its coil; where only the winding is gone the coil is that of the new set.
  const renamed = (id: string): string => {
    const part = old.partOfEnd.get(id);
    const name = part && goneAs.get(part.name);
    return name === undefined || !part ? id : name + id.slice(part.name.length);
  };
  const gone = [...goneAs].flatMap(([raw, name]) => {
    const part = old.partNamed.get(raw);
    return part ? [asGone(part, name, goneAs)] : [];
  });
  const goneEnds = new Set(removed.flatMap(({ thing }) => thing.ends));
  const joins = removed.flatMap(({ thing, ends }) => {
    const raw = rawOf(thing.id);
    const part = old.partNamed.get(raw);
    const name = goneAs.get(raw);
    if (!part || name === undefined) return [];
    return ends.flatMap(({ end, from }): Join[] => {
      if (from === undefined) return [];
      const own = endId({ ...part, name }, end.slice(thing.id.length + 1));
      const after = rename(from);
      const to = !goneEnds.has(from) && now.endNamed.has(after) ? after : renamed(from);
      return [{ from: own, to, place: part.place, said: 'from' }];
    });
  });
  const { partNamed: _, endNamed: __, partOfEnd: ___, junctions: ____, ...said } = now;
  const circuit = assemble({
    ...said,
    parts: [...now.parts, ...gone].map((part) => ({
      ...part,
      ends: part.ends.map((end) => end.name),
    })),
    joins: [...now.joins, ...joins],
  });
  const nowAs = (id: string) => [...nowLeads].find(([, name]) => name === id)?.[0] ?? id;
  return { circuit, goneAs, nowAs };
}

/** A part that is gone, under a name that is free, without what it had to do with other parts. */
function asGone(part: Part, name: string, goneAs: ReadonlyMap<string, string>): Part {
  const { owner } = part;
  return {
    ...part,
    name,
    owner: owner === undefined ? undefined : (goneAs.get(owner) ?? owner),
    contacts: [],
    positions: [],
    companions: [],
  };
}
