import type { TunedCircuit } from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';

/** Whether a tuned circuit is that of an oscillator in a stage of its own. */
export function isOscillator(circuit: Circuit, { windings }: TunedCircuit): boolean {
  return windings.some(({ edge }) => {
    const roles = rolesOf(circuit, edge.part);
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
      windings.some(({ edge }) => rolesOf(circuit, edge.part).includes('intermediate')),
    )
    .flatMap(({ lowest }) => lowest.value ?? [])
    .sort((a, b) => a - b);
  return found[Math.floor((found.length - 1) / 2)];
}

function rolesOf(circuit: Circuit, part: string): readonly string[] {
  const stage = circuit.partNamed.get(part)?.stage;
  return circuit.stages.find(({ name }) => name === stage)?.roles ?? [];
}
