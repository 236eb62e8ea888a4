import type { End } from '@setwright/circuit';
import { endOf } from '../cell.ts';
import { addFilament, type Hanging, tubeCell } from '../cells/tube.ts';
import { isUnwired } from '../rails.ts';
import type { Draft } from './draft.ts';
import { addCell, isTwoEnded, type Planning, roleOf, signalsOf } from './planning.ts';

/** Every tube, with what hangs from its cathode. */
export function planTubes(planning: Planning): void {
  const { parts, rails, used } = planning;
  for (const tube of parts) {
    if (tube.kind !== 'tube') continue;
    used.add(tube.name);
    const cathode = endOf(tube, 'cathode');
    const hanging =
      cathode && roleOf(planning, cathode) === 'signal' ? hangingFrom(planning, cathode) : [];
    for (const { part } of hanging) used.add(part.name);
    const draft: Draft = (paper) => {
      const parts = hanging.map((each) => ({ ...each, part: paper.shown(each.part) }));
      const cell = tubeCell(paper, rails, tube, parts);
      // The filament of a tube that is joined to nothing stands beside it, and not among others.
      if (isUnwired(planning.circuit, tube)) addFilament(cell, tube);
      return cell;
    };
    const grid = endOf(tube, 'grid');
    const led = grid && roleOf(planning, grid) === 'signal' ? [grid.junction] : undefined;
    // Before what its plate leads to; a grid's junction and what hangs from it come before the tube.
    if (led) addCell(planning, draft, led, 0.5);
    else addCell(planning, draft, signalsOf(planning, tube), -0.2);
  }
}

/** All that hangs from a junction, where nothing but it and rails are concerned. */
function hangingFrom(planning: Planning, end: End): Hanging[] {
  const { circuit, used } = planning;
  const found: Hanging[] = [];
  for (const id of circuit.junctions[end.junction]?.terminals ?? []) {
    if (id === end.id) continue;
    const part = circuit.partOfEnd.get(id);
    if (!part || !isTwoEnded(part) || used.has(part.name) || part.kind === 'winding') return [];
    const upper = part.ends.find((one) => one.id === id);
    const lower = part.ends.find((one) => one.id !== id);
    const role = roleOf(planning, lower);
    if (!upper || !lower || role !== 'low') return [];
    found.push({ part, upper: upper.name, lower: lower.name });
  }
  return found;
}
