import type { Circuit } from '@setwright/circuit';
import { calledSo } from '../chart/spot.ts';
import { lineOf } from '../edits/edit.ts';
import { condenserFaults } from './catalogue/condensers.ts';
import { controlFaults } from './catalogue/controls.ts';
import { resistorFaults } from './catalogue/resistors.ts';
import { soundingFaults } from './catalogue/sounding.ts';
import { supplyFaults } from './catalogue/supplies.ts';
import { tubeFaults } from './catalogue/tubes.ts';
import { windingFaults } from './catalogue/windings.ts';
import { type CatalogueRow, type Fault, weights } from './fault.ts';

/** The catalogue: every way in which a part of a set of this age goes wrong. */
export const catalogue: readonly CatalogueRow[] = [
  ...supplyFaults,
  ...controlFaults,
  ...tubeFaults,
  ...windingFaults,
  ...condenserFaults,
  ...resistorFaults,
  ...soundingFaults,
];

/**
 * Every single fault that the parts of a set may have, in the order of the text, each once.
 * Linear in the set, but for what a part is joined to. Never throws.
 */
export function faultsOf(circuit: Circuit): readonly Fault[] {
  const found = new Map<string, Fault>();
  for (const part of circuit.parts) {
    for (const { kind, source, happensTo } of catalogue) {
      for (const said of happensTo(part, circuit)) {
        const line = said.edits
          .map((edit) => lineOf(edit, (name) => calledSo(circuit, name)))
          .join('; ');
        const id = line === '' ? said.words : line;
        if (found.has(id)) continue;
        found.set(id, {
          ...said,
          id,
          kind,
          part: part.name,
          weight: weights[said.prior],
          source,
          heard: said.heard ?? [],
        });
      }
    }
  }
  return [...found.values()];
}
