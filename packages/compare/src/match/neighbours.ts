import type { Junctions } from '../junctions.ts';
import type { Unit } from './units.ts';

/** How alike two parts are by what they are joined to. */
export interface Neighbours {
  /** How much of what one end is joined to the other's is joined to as well, 0 to 1. */
  shared(one: string, other: string, own: Ownership): number;
  /** The same over all ends of two parts. */
  alike(one: Unit, other: Unit): number;
}

interface Ownership {
  readonly one: Unit;
  readonly other: Unit;
}

/** Neither is joined to anything: this speaks for them, but not loudly. */
const BOTH_ALONE = 0.6;

/**
 * Compares what ends are joined to, by a matching of terminals.
 *
 * @param terminals old terminal to new
 */
export function neighboursBy(
  terminals: ReadonlyMap<string, string>,
  old: Junctions,
  now: Junctions,
): Neighbours {
  // How many terminals of one junction are, by the matching, on another.
  const common = new Map<number, Map<number, number>>();
  for (const [before, after] of terminals) {
    const from = old.of.get(before);
    const to = now.of.get(after);
    if (from === undefined || to === undefined) continue;
    const row = common.get(from) ?? new Map<number, number>();
    row.set(to, (row.get(to) ?? 0) + 1);
    common.set(from, row);
  }
  const shared = (one: string, other: string, own: Ownership): number => {
    const from = old.of.get(one) ?? -1;
    const to = now.of.get(other) ?? -1;
    let both = common.get(from)?.get(to) ?? 0;
    let ownOnes = 0;
    for (const end of own.one.ends.values()) {
      if (old.of.get(end) !== from) continue;
      ownOnes += 1;
      const after = terminals.get(end);
      if (after !== undefined && now.of.get(after) === to) both -= 1;
    }
    let ownOthers = 0;
    for (const end of own.other.ends.values()) if (now.of.get(end) === to) ownOthers += 1;
    const many = Math.max(
      (old.members[from]?.length ?? 0) - ownOnes,
      (now.members[to]?.length ?? 0) - ownOthers,
    );
    return many === 0 ? BOTH_ALONE : Math.max(0, both) / many;
  };
  const alike = (one: Unit, other: Unit): number => {
    const names = new Set([...one.ends.keys(), ...other.ends.keys()]);
    if (names.size === 0) return 0.5;
    const own = { one, other };
    let sum = 0;
    for (const name of names) {
      const [a, b] = [one.ends.get(name), other.ends.get(name)];
      if (a !== undefined && b !== undefined) sum += shared(a, b, own);
    }
    return sum / names.size;
  };
  return { shared, alike };
}
