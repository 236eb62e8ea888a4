import type { PossibleConduction } from './any-position.ts';
import type { Part } from './model.ts';
import { zeroTap } from './supplies.ts';

/** Ends of a tube that its electrons come from, or that heat it. */
const emitting: ReadonlySet<string> = new Set(['filament-', 'filament+', 'cathode']);

/**
 * Whether a supply's zero leads to plates or screens and by no conductor, at any position, to a
 * filament or cathode: it is in backwards, and drives nothing through a filament whatever its
 * other taps are on. Linear in what its zero leads to. Never throws.
 */
export function isTurnedRound(possible: PossibleConduction, supply: Part): boolean {
  const { circuit } = possible;
  const zero = zeroTap(supply);
  const start = supply.ends.find((end) => end.name === zero?.end)?.junction;
  if (start === undefined) return false;
  let feeds = false;
  const reached = new Set([start]);
  for (const here of reached) {
    for (const id of circuit.junctions[here]?.terminals ?? []) {
      const part = circuit.partOfEnd.get(id);
      if (part?.kind !== 'tube') continue;
      const end = id.slice(part.name.length + 1);
      if (emitting.has(end)) return false;
      if (end === 'plate' || end === 'screen') feeds = true;
    }
    for (const branch of possible.at[here] ?? []) {
      if (branch.part === supply) continue;
      reached.add(branch.fromJunction);
      reached.add(branch.toJunction);
    }
  }
  return feeds;
}
