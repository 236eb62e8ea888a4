import { isSupply } from '@setwright/circuit';
import { supplySections } from '../supply-sections.ts';
import type { NetworkDraft } from './network-draft.ts';
import { ELIMINATOR_CAPACITY, LEAD_INDUCTANCE } from './usual-signal-values.ts';

/**
 * Takes up batteries and eliminators as what a signal meets in them: the resistance of their cells
 * and the inductance of their leads, section by section.
 *
 * @param leadInductance henries for every section
 */
export function addSupplies(draft: NetworkDraft, leadInductance = LEAD_INDUCTANCE): void {
  const { circuit, settings, conduction } = draft;
  for (const part of circuit.parts) {
    if (!isSupply(part) || settings.removed.has(part.name)) continue;
    for (const { branch, ohms, supposed } of supplySections(part, conduction)) {
      const from = draft.pointOf(branch.fromJunction);
      const to = draft.pointOf(branch.toJunction);
      if (from === to) continue;
      const origin = { part: part.name, from: branch.from, to: branch.to };
      if (supposed !== undefined) draft.assumed.add(`${part.name} is ${supposed}`);
      draft.assumed.add(`${round(1e6 * leadInductance)} µH of leads to every tap of a supply`);
      draft.series.push({
        pieces: [
          {
            from,
            to,
            name: `${branch.from} ${branch.to}`,
            origin,
            ohms: () => ohms,
            isSteady: true,
          },
        ],
        henries: [[leadInductance]],
      });
      if (part.kind !== 'eliminator') continue;
      draft.assumed.add('1 mfd at every tap inside an eliminator');
      draft.capacities.push({ from, to, farads: ELIMINATOR_CAPACITY, origin });
    }
  }
}

function round(value: number): number {
  return Math.round(100 * value) / 100;
}
