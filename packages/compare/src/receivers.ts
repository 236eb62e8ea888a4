import type { Circuit } from '@setwright/circuit';
import { alikeBySaying } from './match/likeness.ts';
import { unitsOf } from './match/units.ts';
import type { PlainSet } from './plain/plain-set.ts';
import { plainSetOf } from './plain/plain-set-of.ts';

/** A set of the old file and what it is in the new one; either may be missing. */
export interface PairedSets {
  readonly old: Circuit | undefined;
  readonly now: Circuit | undefined;
}

/** Sets less alike than this are two sets, one gone and one new. */
const ALIKE_ENOUGH = 0.4;

/**
 * The receivers of two files, paired: by title, then the rest by likeness; where only one is left
 * on each side, those two. In the order of the new file, what is gone at the end.
 */
export function pairedSets(olds: readonly Circuit[], nows: readonly Circuit[]): PairedSets[] {
  const left = new Set(olds);
  const found = new Map<Circuit, Circuit>();
  const pair = (old: Circuit, now: Circuit) => {
    left.delete(old);
    found.set(now, old);
  };
  for (const now of nows) {
    const old = [...left].find(({ title }) => title === now.title);
    if (old) pair(old, now);
  }
  const open = nows.filter((now) => !found.has(now));
  const [only, other] = [[...left][0], open[0]];
  if (olds.length === 1 && nows.length === 1 && only && other) pair(only, other);
  else {
    const plain = new Map([...left, ...open].map((circuit) => [circuit, plainSetOf(circuit)]));
    const weighed = open
      .flatMap((now) => [...left].map((old) => ({ old, now, alike: alikeSets(plain, old, now) })))
      .filter(({ alike }) => alike >= ALIKE_ENOUGH)
      .sort((a, b) => b.alike - a.alike);
    for (const { old, now } of weighed) if (left.has(old) && !found.has(now)) pair(old, now);
  }
  return [
    ...nows.map((now): PairedSets => ({ old: found.get(now), now })),
    ...[...left].map((old): PairedSets => ({ old, now: undefined })),
  ];
}

/** How alike two sets are by their parts of one name, 0 to 1. */
function alikeSets(plain: ReadonlyMap<Circuit, PlainSet>, old: Circuit, now: Circuit): number {
  const unitsIn = (circuit: Circuit) => {
    const set = plain.get(circuit);
    return new Map((set ? unitsOf(set) : []).map((unit) => [unit.id, unit]));
  };
  const [olds, nows] = [unitsIn(old), unitsIn(now)];
  let sum = 0;
  for (const unit of olds.values()) {
    const other = nows.get(unit.id);
    if (other?.family === unit.family) sum += alikeBySaying(unit, other);
  }
  return sum / Math.max(1, olds.size, nows.size);
}
