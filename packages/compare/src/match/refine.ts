import type { Junctions } from '../junctions.ts';
import { alikeBySaying } from './likeness.ts';
import { type Neighbours, neighboursBy } from './neighbours.ts';
import { namelessKey, type Unit } from './units.ts';

/** Below this two parts of different names are two parts; those of one name need less. */
const ALIKE_ENOUGH = 0.55;
const SAME_NAME_ENOUGH = 0.2;

/** Families with more pairs to weigh than this keep the matching they have. */
const MOST_PAIRS = 40_000;

/** The terminals of matched parts, by what they are called within their part. */
export function terminalsOf(
  matched: ReadonlyMap<string, string>,
  olds: ReadonlyMap<string, Unit>,
  nows: ReadonlyMap<string, Unit>,
): ReadonlyMap<string, string> {
  const terminals = new Map<string, string>();
  for (const [before, after] of matched) {
    const other = nows.get(after);
    for (const [name, end] of olds.get(before)?.ends ?? []) {
      const same = other?.ends.get(name);
      if (same !== undefined) terminals.set(end, same);
    }
  }
  return terminals;
}

/**
 * A matching made better: parts that a matching leaves in doubt are matched anew by what is said
 * of them and by what they are joined to, as the matching so far has it.
 */
export function refined(
  matched: ReadonlyMap<string, string>,
  olds: ReadonlyMap<string, Unit>,
  nows: ReadonlyMap<string, Unit>,
  old: Junctions,
  now: Junctions,
): Map<string, string> {
  const neighbours = neighboursBy(terminalsOf(matched, olds, nows), old, now);
  const settled = new Map<string, string>();
  for (const [before, after] of matched) {
    const [one, other] = [olds.get(before), nows.get(after)];
    if (one && other && isSettled(one, other, neighbours)) settled.set(before, after);
  }
  const taken = new Set(settled.values());
  const pools = new Map<string, { one: Unit[]; other: Unit[] }>();
  const pool = (family: string) => {
    const known = pools.get(family) ?? { one: [], other: [] };
    pools.set(family, known);
    return known;
  };
  for (const unit of olds.values()) if (!settled.has(unit.id)) pool(unit.family).one.push(unit);
  for (const unit of nows.values()) if (!taken.has(unit.id)) pool(unit.family).other.push(unit);
  const found = new Map(settled);
  for (const { one, other } of pools.values()) {
    if (one.length * other.length > MOST_PAIRS) keep(matched, one, found);
    else for (const [before, after] of bestPairs(one, other, neighbours)) found.set(before, after);
  }
  return found;
}

function keep(
  matched: ReadonlyMap<string, string>,
  units: readonly Unit[],
  into: Map<string, string>,
) {
  for (const { id } of units) {
    const after = matched.get(id);
    if (after !== undefined) into.set(id, after);
  }
}

function isSettled(one: Unit, other: Unit, neighbours: Neighbours): boolean {
  if (one.ends.size !== other.ends.size || one.facts.size !== other.facts.size) return false;
  for (const [slot, phrases] of one.facts)
    if (namelessKey(phrases) !== namelessKey(other.facts.get(slot) ?? [])) return false;
  for (const [name, end] of one.ends) {
    const same = other.ends.get(name);
    if (same === undefined || neighbours.shared(end, same, { one, other }) < 0.6) return false;
  }
  return true;
}

/** Pairs of the most alike first, each part once. */
function bestPairs(
  olds: readonly Unit[],
  nows: readonly Unit[],
  neighbours: Neighbours,
): [string, string][] {
  const pairs = olds.flatMap((one) =>
    nows.flatMap((other) => {
      const isSame = one.id === other.id;
      const alike =
        0.4 * alikeBySaying(one, other) +
        0.6 * neighbours.alike(one, other) +
        (isSame ? 0.08 : 0) +
        (one.kind === other.kind ? 0 : -0.1);
      return alike >= (isSame ? SAME_NAME_ENOUGH : ALIKE_ENOUGH) ? { one, other, alike } : [];
    }),
  );
  pairs.sort((a, b) => b.alike - a.alike);
  const before = new Set<string>();
  const after = new Set<string>();
  return pairs.flatMap(({ one, other }): [string, string][] => {
    if (before.has(one.id) || after.has(other.id)) return [];
    before.add(one.id);
    after.add(other.id);
    return [[one.id, other.id]];
  });
}
