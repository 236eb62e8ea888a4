import { condenserValues } from '../condenser-values.ts';
import { strayCapacities } from '../stray-capacities.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { Tuning } from './signal-system.ts';

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
  for (const { point, farads, assumed: because } of strayCapacities(circuit, draft.groups)) {
    const from = draft.pointOf(point);
    assumed.add(because);
    if (from !== 0) draft.capacities.push({ from, to: 0, farads, isStray: true });
  }
}
