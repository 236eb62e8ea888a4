import type { Conduction, Part } from '@setwright/circuit';
import { isLeak, partsAt, type TubeAt } from '../tubes/tubes.ts';

/** Kinds that may lie between a grid and its condenser without being a return of their own. */
const between: ReadonlySet<string> = new Set([
  'tube',
  'condenser',
  'resistor',
  'switch',
  'selector',
  'jack',
  'lead',
  'fuse',
  'post',
  'bus',
]);

/**
 * The fixed condenser that a floating grid hangs on, where there is nothing else: no coil, no
 * winding, no leak. Undefined when the grid's wiring holds anything that ought to lead home.
 * Linear in what the grid is wired to.
 */
export function strandingCondenser(conduction: Conduction, tube: TubeAt): Part | undefined {
  const { circuit } = conduction;
  if (!tube.grid) return undefined;
  const reached = new Set([tube.grid.junction]);
  const condensers: Part[] = [];
  for (const here of reached) {
    for (const part of partsAt(circuit, here)) {
      if (!between.has(part.kind) || isLeak(part)) return undefined;
      if (part.kind === 'condenser') condensers.push(part);
    }
    for (const branch of conduction.at[here] ?? []) {
      if (branch.direct.kind === 'blocks') continue;
      reached.add(branch.fromJunction === here ? branch.toJunction : branch.fromJunction);
    }
  }
  return condensers.find(
    (part) =>
      !['variable', 'trimmer', 'neutralizing'].some((word) => part.words.has(word)) &&
      part.ends.some((end) => !reached.has(end.junction)),
  );
}
