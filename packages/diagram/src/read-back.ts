import type { Circuit } from '@setwright/circuit';
import { readGeometry } from './read-geometry.ts';
import type { Scene } from './scene.ts';

/** The ends of each junction of a circuit, sorted as `readGeometry` sorts them. */
export function netlistOf(circuit: Circuit): string[][] {
  return circuit.junctions
    .map(({ terminals }) => [...terminals].sort())
    .filter((terminals) => terminals.length > 0)
    .sort((a, b) => ((a[0] ?? '') < (b[0] ?? '') ? -1 : 1));
}

/** Junctions that the picture does not show as the circuit has them. */
export function misread(circuit: Circuit, scene: Scene): number[] {
  const seen = new Set(readGeometry(scene).map((set) => set.join('\n')));
  return circuit.junctions
    .filter(({ terminals }) => terminals.length > 0 && !seen.has([...terminals].sort().join('\n')))
    .map(({ index }) => index);
}
