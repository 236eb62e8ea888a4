import type { Circuit } from '@setwright/circuit';
import { resonanceProduct } from '@setwright/physics';
import { condenserValues } from './condenser-values.ts';
import type { TunedCircuit } from './tuned-circuits.ts';

/** A gang with its trimmers set as one does it, at the short-wave end. */
export interface AlignedGang {
  /** All the circuits given, those of the gang with their trimmers as set. */
  readonly tuned: readonly TunedCircuit[];
  /** Farads of each trimmer, by its name. */
  readonly trimmers: ReadonlyMap<string, number>;
}

/**
 * Sets the trimmers of a gang so that its circuits agree with the plates out, on the one of them
 * that reaches least far up. Trimmers that the text sets stand as they are. One that would have to
 * be larger than it can be is set to its most. Circuits whose numbers are not known stay as given.
 */
export function alignedGang(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
  gang: string,
): AlignedGang {
  const highest = tuned.flatMap((each) =>
    each.gang === gang && each.highest.value !== undefined ? [each.highest.value] : [],
  );
  const product = highest.length > 1 ? resonanceProduct(Math.min(...highest)) : undefined;
  const trimmers = new Map<string, number>();
  if (product === undefined) return { tuned, trimmers };
  const aligned = tuned.map((each) => {
    const { inductance, leastCapacity, law } = each;
    const trimmer = each.gang === gang ? unsetTrimmer(circuit, each) : undefined;
    if (!trimmer || !law || !inductance.value || leastCapacity.value === undefined) return each;
    const wanted = Math.max(0, product / inductance.value - leastCapacity.value);
    const added = Math.min(wanted, trimmer.most - trimmer.least);
    trimmers.set(trimmer.name, trimmer.least + added);
    return { ...each, law: { ...law, strays: law.strays + added } };
  });
  return { tuned: aligned, trimmers };
}

/** The largest trimmer straight across a circuit that the text does not set. */
function unsetTrimmer(circuit: Circuit, tuned: TunedCircuit) {
  return tuned.beside
    .flatMap((name) => {
      const part = circuit.partNamed.get(name);
      const values = part && condenserValues(circuit, part);
      const isSet = part?.setting !== undefined || part?.values.set !== undefined;
      if (values?.kind !== 'trimmer' || isSet) return [];
      const { least, most } = values;
      return least.value === undefined || most.value === undefined
        ? []
        : [{ name, least: least.value, most: most.value }];
    })
    .sort((a, b) => b.most - a.most)[0];
}
