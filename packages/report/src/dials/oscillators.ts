import type { TunedCircuit } from '@setwright/analysis';
import { type Circuit, rolesOf } from '@setwright/circuit';

/** Whether a tuned circuit is that of an oscillator in a stage of its own. */
export function isOscillator(circuit: Circuit, { windings }: TunedCircuit): boolean {
  return windings.some((winding) => {
    const roles = rolesOfWinding(circuit, winding);
    return roles.includes('oscillator') && !roles.includes('mixer');
  });
}

/**
 * Hertz that the intermediate amplifier is tuned to: what its transformers state, else the middle
 * one of its circuits. Undefined where neither is known.
 */
export function intermediateFrequency(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
): number | undefined {
  const stated = circuit.parts.find(({ values }) => (values.tuned?.value ?? 0) > 0);
  if (stated) return stated.values.tuned?.value;
  const found = tuned
    .filter(({ windings }) =>
      windings.some((winding) => rolesOfWinding(circuit, winding).includes('intermediate')),
    )
    .flatMap(({ lowest }) => lowest.value ?? [])
    .sort((a, b) => a - b);
  return found[Math.floor((found.length - 1) / 2)];
}

function rolesOfWinding(
  circuit: Circuit,
  { edge }: TunedCircuit['windings'][number],
): readonly string[] {
  const part = circuit.partNamed.get(edge.part);
  return part ? rolesOf(circuit, part) : [];
}
