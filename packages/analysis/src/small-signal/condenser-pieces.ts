import { condenserValues } from '../condenser-values.ts';
import { strayCapacities } from '../stray-capacities.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { Tuning } from './signal-system.ts';
import { socketPiece } from './tube-pieces.ts';

/** Takes up condensers as they are set, variable ones half way where nothing is said; strays. */
export function addCondensers(draft: NetworkDraft, stand: Tuning = new Map()): void {
  const { circuit, settings, assumed } = draft;
  for (const part of circuit.parts) {
    const values = settings.removed.has(part.name) ? undefined : condenserValues(circuit, part);
    const [first, second] = part.ends;
    if (!values || !first || !second) continue;
    const { least, most, now } = values;
    const middle =
      least.value === undefined || most.value === undefined
        ? undefined
        : (least.value + most.value) / 2;
    const farads = stand.get(part.name) ?? now.value ?? middle;
    if (farads === undefined) {
      const why = 'its capacity is not known: counted as open';
      draft.lacks.push({ part: part.name, why });
      continue;
    }
    for (const each of now.value === undefined ? [] : now.because.assumed) assumed.add(each);
    const from = draft.pointOf(first.junction);
    const to = draft.pointOf(second.junction);
    if (from === to) continue;
    const origin = { part: part.name, from: first.id, to: second.id };
    draft.capacities.push({ from, to, farads, condenser: part.name, origin });
  }
  addStrays(draft);
}

/**
 * Wiring and sockets. Behind a grid's lead of its own stands what its socket holds. Where that is
 * one with the wiring of a coil, so that no more counts for it, a capacity is put there that is
 * nothing at first.
 */
function addStrays(draft: NetworkDraft): void {
  const { circuit, groups, assumed, openedGrids } = draft;
  const behind = new Set<string>();
  for (const { point, farads, part, assumed: because } of strayCapacities(circuit, groups)) {
    assumed.add(because);
    const isOfGrid = part.kind === 'tube' && groups.ofEnd(`${part.name}.grid`) === point;
    const inner = isOfGrid ? openedGrids.get(part.name) : undefined;
    const from = inner ?? draft.pointOf(point);
    if (inner !== undefined) behind.add(part.name);
    if (from !== 0) draft.capacities.push({ from, to: 0, farads, isStray: true });
  }
  for (const [tube, from] of openedGrids) {
    if (behind.has(tube)) continue;
    const condenser = socketPiece(tube);
    draft.capacities.push({ from, to: 0, farads: 0, condenser, isStray: true });
  }
}
