import type { Conduction, JoinedBranch } from '@setwright/circuit';

/** Two junctions that are joined by something the text does not draw. */
export type Bridge = readonly [number, number];

/**
 * For every junction the number of its region: junctions of one region are tied together by the
 * branches that pass, or by a bridge. Numbered from 0 in the order of their first junction.
 * Linear in the set.
 */
export function regionsOf(
  conduction: Conduction,
  passes: (branch: JoinedBranch) => boolean,
  bridges: readonly Bridge[] = [],
): readonly number[] {
  const across = new Map<number, number[]>();
  for (const [a, b] of bridges) {
    across.set(a, [...(across.get(a) ?? []), b]);
    across.set(b, [...(across.get(b) ?? []), a]);
  }
  const region: number[] = conduction.circuit.junctions.map(() => -1);
  let count = 0;
  for (let start = 0; start < region.length; start++) {
    if (region[start] !== -1) continue;
    region[start] = count;
    const waiting = [start];
    for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
      const there = (conduction.at[here] ?? [])
        .filter(passes)
        .map((branch) => (branch.fromJunction === here ? branch.toJunction : branch.fromJunction));
      for (const junction of [...there, ...(across.get(here) ?? [])]) {
        if (region[junction] !== -1) continue;
        region[junction] = count;
        waiting.push(junction);
      }
    }
    count++;
  }
  return region;
}
