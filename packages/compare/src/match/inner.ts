import type { Renamed } from '../differences.ts';
import type { Junctions } from '../junctions.ts';
import type { PlainSet, Thing, ThingKind } from '../plain/plain-set.ts';
import { alikeBySaying } from './likeness.ts';
import { neighboursBy } from './neighbours.ts';
import { terminalsOf } from './refine.ts';
import { isPart, namelessKey, type Unit } from './units.ts';

/** Windings and taps of matched parts. */
export interface Inner {
  /** Old winding to new. */
  readonly windings: ReadonlyMap<string, string>;
  /** Taps that go by another name within their part. */
  readonly tapsRenamed: readonly Renamed[];
}

/**
 * Matches windings and taps of matched parts: by their own names, those left over by what they are
 * joined to and what is said of them.
 */
export function innerMatches(
  matched: ReadonlyMap<string, string>,
  olds: ReadonlyMap<string, Unit>,
  nows: ReadonlyMap<string, Unit>,
  old: Junctions,
  now: Junctions,
): Inner {
  const { shared } = neighboursBy(terminalsOf(matched, olds, nows), old, now);
  const windings = new Map<string, string>();
  const tapsRenamed: Renamed[] = [];
  for (const [before, after] of matched) {
    const [one, other] = [olds.get(before), nows.get(after)];
    if (!one || !other) continue;
    const pairs = pairedOff(one.windings, other.windings, (a, b) =>
      alikeWindings(one, a, other, b, (from, to) => shared(from, to, { one, other })),
    );
    const prefixes = new Map<string, string>();
    for (const [a, b] of pairs) {
      windings.set(one.windings.get(a) ?? '', other.windings.get(b) ?? '');
      prefixes.set(a, b);
    }
    tapsRenamed.push(...tapsOf(one, other, prefixes, (a, b) => shared(a, b, { one, other })));
  }
  return { windings, tapsRenamed };
}

/** Pairs of names: the same ones, then what is left by likeness over 0.3, the most alike first. */
function pairedOff(
  ones: ReadonlyMap<string, string>,
  others: ReadonlyMap<string, string>,
  likeness: (one: string, other: string) => number,
): [string, string][] {
  const pairs: [string, string][] = [...ones.keys()].flatMap((name) =>
    others.has(name) ? [[name, name] as [string, string]] : [],
  );
  const left = [...ones.keys()].filter((name) => !others.has(name));
  const right = [...others.keys()].filter((name) => !ones.has(name));
  const weighed = left
    .flatMap((one) => right.map((other) => ({ one, other, alike: likeness(one, other) })))
    .filter(({ alike }) => alike > 0.3)
    .sort((a, b) => b.alike - a.alike);
  const taken = new Set<string>();
  for (const { one, other } of weighed) {
    if (taken.has(`<${one}`) || taken.has(`>${other}`)) continue;
    taken.add(`<${one}`).add(`>${other}`);
    pairs.push([one, other]);
  }
  return pairs;
}

/** The ends of a winding by what they are called within it. */
function endsOf(unit: Unit, winding: string): Map<string, string> {
  const prefix = `${winding}.`;
  return new Map(
    [...unit.ends].flatMap(([name, end]) =>
      name.startsWith(prefix) ? [[name.slice(winding.length), end] as const] : [],
    ),
  );
}

function alikeWindings(
  one: Unit,
  a: string,
  other: Unit,
  b: string,
  shared: (from: string, to: string) => number,
): number {
  const part = (unit: Unit, name: string): Unit => ({
    ...unit,
    facts: new Map(
      [...unit.facts].flatMap(([slot, said]) =>
        slot.startsWith(`${name} `) ? [[slot.slice(name.length), said] as const] : [],
      ),
    ),
  });
  const there = endsOf(other, b);
  const joined = [...endsOf(one, a)].map(([name, end]) => {
    const same = there.get(name);
    return same === undefined ? 0 : shared(end, same);
  });
  const mean = joined.reduce((sum, each) => sum + each, 0) / Math.max(1, joined.length);
  return 0.4 * alikeBySaying(part(one, a), part(other, b)) + 0.6 * mean;
}

/** Taps of a part that go by another name: where they are joined to the same, or give the same. */
function tapsOf(
  one: Unit,
  other: Unit,
  windings: ReadonlyMap<string, string>,
  shared: (from: string, to: string) => number,
): Renamed[] {
  const groups: [string, string][] =
    windings.size > 0 ? [...windings] : one.windings.size > 0 ? [] : [['', '']];
  return groups.flatMap(([a, b]) => {
    const before = a === '' ? new Map(one.ends) : endsOf(one, a);
    const after = b === '' ? new Map(other.ends) : endsOf(other, b);
    const said = (unit: Unit, winding: string, end: string) =>
      namelessKey(
        (unit.facts.get(winding === '' ? 'taps' : `${winding} taps`) ?? []).filter((phrase) =>
          phrase.some((word) => typeof word !== 'string' && 'name' in word && word.name === end),
        ),
      );
    const likeness = (x: string, y: string) => {
      const [from, to] = [before.get(x) ?? '', after.get(y) ?? ''];
      if (areFarApart(one, from, other, to)) return 0;
      const same = said(one, a, from) === said(other, b, to) ? 0.4 : 0;
      return 0.6 * shared(from, to) + same;
    };
    return pairedOff(before, after, likeness)
      .filter(([x, y]) => x !== y)
      .map(([x, y]) => ({
        kind: one.kind,
        before: before.get(x) ?? '',
        after: after.get(y) ?? '',
      }));
  });
}

/** A tap that gives this many times as much is another tap, and no other name of the same. */
const FAR = 1.4;

/** Whether two taps of a supply give volts that are far apart. */
function areFarApart(one: Unit, from: string, other: Unit, to: string): boolean {
  if (one.family !== 'supply') return false;
  const voltsOf = (unit: Unit, end: string) =>
    unit.facts
      .get('taps')
      ?.find((phrase) =>
        phrase.some((word) => typeof word !== 'string' && 'name' in word && word.name === end),
      )
      ?.flatMap((word) =>
        typeof word !== 'string' && 'value' in word && word.dimension === 'voltage'
          ? word.value
          : [],
      )[0];
  const [was, is] = [voltsOf(one, from), voltsOf(other, to)];
  if (was === undefined || is === undefined || was === is) return false;
  return was * is <= 0 || Math.max(was / is, is / was) > FAR;
}

/** Stages, gangs, dials, benches, supposes and tube types: by name, the rest by what they say. */
export function otherMatches(
  old: PlainSet,
  now: PlainSet,
  parts: ReadonlyMap<string, string>,
): Map<string, string> {
  const matched = new Map<string, string>();
  const there = new Map(now.things.filter((each) => !isPart(each)).map((each) => [each.id, each]));
  const left: Thing[] = [];
  for (const thing of old.things) {
    if (isPart(thing)) continue;
    if (there.delete(thing.id)) matched.set(thing.id, thing.id);
    else left.push(thing);
  }
  const held = holders(now, (id) => id);
  const holding = holders(old, (id) => parts.get(id) ?? '');
  const weighed = left
    .flatMap((one) =>
      [...there.values()]
        .filter(({ kind }) => kind === one.kind)
        .map((other) => ({ one, other, alike: alikeThings(one, other, holding, held, parts) })),
    )
    .filter(({ alike }) => alike > 0.5)
    .sort((a, b) => b.alike - a.alike);
  for (const { one, other } of weighed) {
    if (matched.has(one.id) || !there.delete(other.id)) continue;
    matched.set(one.id, other.id);
  }
  return matched;
}

type Held = ReadonlyMap<string, ReadonlySet<string>>;

/** By stage the parts in it. */
function holders({ things }: PlainSet, rename: (id: string) => string): Held {
  const held = new Map<string, Set<string>>();
  for (const { id, facts } of things) {
    for (const word of (facts.stage ?? []).flat()) {
      if (typeof word === 'string' || !('name' in word)) continue;
      held.set(word.name, (held.get(word.name) ?? new Set()).add(rename(id)));
    }
  }
  return held;
}

/** How alike two are by what they hold and say, 0 to 1. */
function alikeThings(
  one: Thing,
  other: Thing,
  holding: Held,
  held: Held,
  parts: ReadonlyMap<string, string>,
): number {
  const kindsWithParts: readonly ThingKind[] = ['stage'];
  const [a, b] = kindsWithParts.includes(one.kind)
    ? [holding.get(one.id) ?? new Set<string>(), held.get(other.id) ?? new Set<string>()]
    : [linesOf(one, (id) => parts.get(id) ?? id), linesOf(other, (id) => id)];
  const both = [...a].filter((each) => b.has(each)).length;
  return Math.max(a.size, b.size) === 0 ? 0.4 : both / Math.max(a.size, b.size);
}

function linesOf({ facts }: Thing, rename: (id: string) => string): ReadonlySet<string> {
  return new Set(
    Object.entries(facts).flatMap(([slot, phrases]) =>
      phrases.map((phrase) =>
        JSON.stringify([
          slot,
          ...phrase.map((word) =>
            typeof word !== 'string' && 'name' in word ? rename(word.name) : word,
          ),
        ]),
      ),
    ),
  );
}
