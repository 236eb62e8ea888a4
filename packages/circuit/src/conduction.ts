import type { Branch } from './branch.ts';
import { partKinds } from './kinds.ts';
import type { Circuit } from './model.ts';
import type { Settings } from './settings.ts';

/** A branch with the junctions that its two terminals lie on. */
export interface JoinedBranch extends Branch {
  /** Index into `Conduction.branches`. */
  readonly index: number;
  readonly fromJunction: number;
  readonly toJunction: number;
}

/** What direct current sees of a set whose controls stand in one way. */
export interface Conduction {
  readonly circuit: Circuit;
  readonly settings: Settings;
  /** Every branch of every part, in the order of the text: conducting, source and blocking. */
  readonly branches: readonly JoinedBranch[];
  /** For every junction the branches that end on it; one with both ends there is listed once. */
  readonly at: readonly (readonly JoinedBranch[])[];
}

/**
 * The branches of all parts under these settings, indexed by junction.
 * Branches that name a terminal which does not exist are passed over. Never throws.
 */
export function conductionOf(circuit: Circuit, settings: Settings): Conduction {
  const branches: JoinedBranch[] = [];
  const at: JoinedBranch[][] = circuit.junctions.map(() => []);
  for (const part of circuit.parts) {
    if (settings.removed.has(part.name) && part.kind !== 'tube') continue;
    for (const branch of partKinds[part.kind].conduct(part, settings)) {
      const fromJunction = circuit.endNamed.get(branch.from)?.junction;
      const toJunction = circuit.endNamed.get(branch.to)?.junction;
      if (fromJunction === undefined || toJunction === undefined) continue;
      const { from, to, direct } = branch;
      const index = branches.length;
      const joined = { part: part.name, from, to, direct, index, fromJunction, toJunction };
      branches.push(joined);
      at[fromJunction]?.push(joined);
      if (toJunction !== fromJunction) at[toJunction]?.push(joined);
    }
  }
  return { circuit, settings, branches, at };
}
