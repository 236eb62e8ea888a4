import type { Conduction } from './conduction.ts';
import type { Circuit } from './model.ts';
import type { Blocker } from './reach.ts';

/**
 * Whether a goal lies somewhere beyond what blocks, be it behind more that blocks. An electrode
 * that touches nothing in its tube is no way to anywhere.
 */
export function leadsOn(
  conduction: Conduction,
  blocker: Blocker,
  reached: ReadonlySet<number>,
  isGoal: (junction: number) => boolean,
): boolean {
  const { circuit } = conduction;
  const start = circuit.endNamed.get(blocker.to)?.junction;
  if (start === undefined || isElectrodeGap(circuit, blocker.part, blocker)) return false;
  const seen = new Set([start]);
  const waiting = [start];
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    if (isGoal(here)) return true;
    for (const branch of conduction.at[here] ?? []) {
      if (branch.direct.kind === 'blocks' && isElectrodeGap(circuit, branch.part, branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (seen.has(there) || reached.has(there)) continue;
      seen.add(there);
      waiting.push(there);
    }
  }
  return false;
}

/** Whether something that blocks is the space in a tube, and not its filament out of a socket. */
function isElectrodeGap(
  circuit: Circuit,
  part: string,
  { from, to }: { readonly from: string; readonly to: string },
): boolean {
  const isTube = circuit.partNamed.get(part)?.kind === 'tube';
  const isFilament = (id: string): boolean => id.startsWith(`${part}.filament`);
  return isTube && !(isFilament(from) && isFilament(to));
}
