import type { PlainSet } from './plain/plain-set.ts';

/** Which terminals are joined, by number of the junction; each terminal is on exactly one. */
export interface Junctions {
  readonly members: readonly (readonly string[])[];
  readonly of: ReadonlyMap<string, number>;
}

/** The junctions of a set, those of terminals that are joined to nothing among them. */
export function junctionsOf(set: PlainSet): Junctions {
  const joined = new Set(set.junctions.flat());
  const alone = set.things.flatMap(({ ends }) => ends).filter((end) => !joined.has(end));
  return numbered([...set.junctions, ...[...new Set(alone)].map((end) => [end])]);
}

/** Junctions by their members. */
function numbered(members: readonly (readonly string[])[]): Junctions {
  const of = new Map<string, number>();
  for (const [index, terminals] of members.entries())
    for (const terminal of terminals) of.set(terminal, index);
  return { members, of };
}

/**
 * Which new junction each old one lives on in: where most of its terminals are, the firmer ones
 * counting for more, no new junction taken twice. Greedy, which is exact where few ends moved.
 *
 * @param old of terminals by their new names
 */
export function livesOnIn(
  old: Junctions,
  now: Junctions,
  firm: (terminal: string) => number,
): ReadonlyMap<number, number> {
  const shared: { from: number; to: number; weight: number }[] = [];
  for (const [from, terminals] of old.members.entries()) {
    const weights = new Map<number, number>();
    for (const terminal of terminals) {
      const to = now.of.get(terminal);
      if (to !== undefined) weights.set(to, (weights.get(to) ?? 0) + firm(terminal));
    }
    for (const [to, weight] of weights) shared.push({ from, to, weight });
  }
  shared.sort((a, b) => b.weight - a.weight || a.from - b.from || a.to - b.to);
  const livesOn = new Map<number, number>();
  const taken = new Set<number>();
  for (const { from, to } of shared) {
    if (livesOn.has(from) || taken.has(to)) continue;
    livesOn.set(from, to);
    taken.add(to);
  }
  return livesOn;
}
