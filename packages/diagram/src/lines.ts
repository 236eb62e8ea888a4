import type { Circuit } from '@setwright/circuit';
import { naturally } from './natural-order.ts';
import type { Plan } from './plan.ts';
import type { Rails } from './rails.ts';

/** Rails that are drawn as lines, from the cells outwards. */
export interface Lines {
  upper: number[];
  lower: number[];
}

/** Which rails become lines: every B supply that is used, and the two most used low rails. */
export function chooseLines(
  circuit: Circuit,
  rails: Rails,
  names: readonly string[],
  lines: Lines,
  plan: () => Plan,
): void {
  const all = circuit.junctions.map(({ index }) => index);
  lines.upper = all.filter((net) => rails.roleOf(net) === 'high');
  lines.lower = all.filter((net) => rails.roleOf(net) === 'low');
  const made = plan();
  const uses = (net: number, up: boolean): number =>
    [...made.cells, ...made.columns].reduce(
      (sum, { drops }) => sum + drops.filter((drop) => drop.net === net && drop.up === up).length,
      0,
    );
  const byName = (a: number, b: number): number => naturally(names[a] ?? '', names[b] ?? '');
  lines.upper = lines.upper.filter((net) => uses(net, true) > 0).sort(byName);
  lines.lower = lines.lower
    .filter((net) => uses(net, false) > (net === rails.ground ? 1 : 2))
    .sort((a, b) => uses(b, false) - uses(a, false) || byName(a, b))
    .slice(0, 2)
    .sort((a, b) => Number(b === rails.ground) - Number(a === rails.ground) || byName(a, b));
}
