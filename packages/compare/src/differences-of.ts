import { type Carrying, carriedOver, renaming } from './carried-over.ts';
import {
  type Changed,
  type Differences,
  type Removed,
  type Renamed,
  weightOf,
} from './differences.ts';
import { type Junctions, junctionsOf } from './junctions.ts';
import { matchedByColour } from './match/by-colour.ts';
import { innerMatches, otherMatches } from './match/inner.ts';
import { refined } from './match/refine.ts';
import { type Unit, unitsOf } from './match/units.ts';
import { movesAndArrivals } from './moves.ts';
import { type Phrase, samePhrases } from './plain/phrase.ts';
import type { PlainSet, Thing } from './plain/plain-set.ts';
import { standing } from './plain/standing.ts';
import { jointsOf } from './same.ts';

/** How often a matching is made better by what it says itself. */
const ROUNDS = 3;

/**
 * How one set differs from another: of the circuit, not of the text. Parts are told from one
 * another by name where that makes sense of the sets, else by what they are and what they are
 * joined to, so that a set in which everything is numbered anew is recognized. Never throws.
 */
export function differencesOf(old: PlainSet, now: PlainSet): Differences {
  const olds = byId(unitsOf(old));
  const nows = byId(unitsOf(now));
  const before = junctionsOf(old);
  const after = junctionsOf(now);
  const told = (matched: ReadonlyMap<string, string>) =>
    differencesBy(old, now, withInner(old, now, matched, olds, nows, before, after), before);
  const named = byName(olds, nows);
  let best = told(named);
  if (isPlain(best)) return best;
  let least = weightOf(best);
  const coloured = matchedByColour([...olds.values()], [...nows.values()], before, after);
  for (const start of [named, coloured]) {
    let matched = start;
    for (let round = 0; round < ROUNDS; round += 1) {
      const better = refined(matched, olds, nows, before, after);
      if (isSameMatch(better, matched)) break;
      matched = better;
      const found = told(matched);
      const weight = weightOf(found);
      if (weight >= least) continue;
      best = found;
      least = weight;
    }
  }
  return best;
}

/** No part is gone, new or joined otherwise: nothing speaks for another matching than by name. */
function isPlain({ removed, added, moved }: Differences): boolean {
  return removed.length === 0 && added.length === 0 && moved.length === 0;
}

const byId = (units: readonly Unit[]): ReadonlyMap<string, Unit> =>
  new Map(units.map((unit) => [unit.id, unit]));

function byName(
  olds: ReadonlyMap<string, Unit>,
  nows: ReadonlyMap<string, Unit>,
): Map<string, string> {
  const matched = new Map<string, string>();
  for (const { id, family } of olds.values())
    if (nows.get(id)?.family === family) matched.set(id, id);
  return matched;
}

function isSameMatch(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>) {
  return (
    one.size === other.size && [...one].every(([before, after]) => other.get(before) === after)
  );
}

/** Every thing of the old set that lives on, and taps that go by another name. */
interface Matching {
  readonly things: ReadonlyMap<string, string>;
  readonly tapsRenamed: readonly Renamed[];
}

function withInner(
  old: PlainSet,
  now: PlainSet,
  matched: ReadonlyMap<string, string>,
  olds: ReadonlyMap<string, Unit>,
  nows: ReadonlyMap<string, Unit>,
  before: Junctions,
  after: Junctions,
): Matching {
  const { windings, tapsRenamed } = innerMatches(matched, olds, nows, before, after);
  const parts = new Map([...matched, ...windings]);
  return { things: new Map([...parts, ...otherMatches(old, now, parts)]), tapsRenamed };
}

function differencesBy(
  old: PlainSet,
  now: PlainSet,
  { things, tapsRenamed }: Matching,
  before: Junctions,
): Differences {
  const there = new Map(now.things.map((thing) => [thing.id, thing]));
  const renamed = old.things.flatMap(({ id, kind }): Renamed[] => {
    const after = things.get(id);
    return after === undefined || after === id ? [] : [{ kind, before: id, after }];
  });
  const rename = renaming(old, { renamed, tapsRenamed });
  const nameNow = (end: string) => rename(end);
  const { best } = standing(old.things);
  const stillThere = new Set(now.things.flatMap(({ ends }) => ends));
  const isGone = goneEnds(old, things, there, nameNow);
  const leftAt = (end: string): string | undefined => {
    const others = (before.members[before.of.get(end) ?? -1] ?? []).filter((id) => id !== end);
    const staying = others.filter((id) => !isGone.has(id) && stillThere.has(nameNow(id)));
    return best(staying) ?? best(others);
  };
  const removed = old.things
    .filter(({ id }) => !things.has(id))
    .map(
      (thing): Removed => ({
        thing,
        ends: thing.ends.map((end) => ({ end, from: leftAt(end) })),
      }),
    );
  const removedThings = new Set(removed.map(({ thing }) => thing.id));
  const tapsRemoved = old.things
    .filter(({ id }) => !removedThings.has(id))
    .flatMap(({ id, ends }) =>
      ends
        .filter((end) => isGone.has(end))
        .map((end) => ({ thing: rename(id), end, from: leftAt(end) })),
    );
  const carrying: Carrying = { removed, tapsRemoved, renamed, tapsRenamed };
  const carried = carriedOver(old, carrying);
  const { moved, added, tapsAdded } = movesAndArrivals(carried, now);
  const changed = changesOf(carried, now, there);
  return { renamed, tapsRenamed, removed, added, tapsRemoved, tapsAdded, changed, moved };
}

/** Terminals of the old set that the new one has not, under whatever name. */
function goneEnds(
  old: PlainSet,
  things: ReadonlyMap<string, string>,
  there: ReadonlyMap<string, Thing>,
  rename: (id: string) => string,
): ReadonlySet<string> {
  const gone = new Set<string>();
  for (const { id, ends } of old.things) {
    const kept = new Set(there.get(things.get(id) ?? '')?.ends);
    for (const end of ends) if (!kept.has(rename(end))) gone.add(end);
  }
  return gone;
}

function changesOf(
  carried: PlainSet,
  now: PlainSet,
  there: ReadonlyMap<string, Thing>,
): readonly Changed[] {
  const jointOf = jointsOf(now);
  const nothing: readonly Phrase[] = [];
  return carried.things.flatMap((thing): Changed[] => {
    const other = there.get(thing.id);
    if (!other) return [];
    const slots = new Set([...Object.keys(thing.facts), ...Object.keys(other.facts)]);
    return [...slots].flatMap((slot) => {
      const before = thing.facts[slot] ?? nothing;
      const after = other.facts[slot] ?? nothing;
      return samePhrases(before, after, jointOf)
        ? []
        : [{ thing: thing.id, kind: other.kind, slot, before, after }];
    });
  });
}
