import type { Circuit } from '@setwright/circuit';
import { joinedEnds } from './read-geometry.ts';
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
  const setOf = new Map<string, readonly string[]>();
  for (const set of joinedEnds(scene)) for (const end of set) setOf.set(end, set);
  return circuit.junctions
    .filter(({ terminals: [first, ...others] }) => {
      if (first === undefined) return false;
      const set = setOf.get(first);
      return set?.length !== others.length + 1 || others.some((end) => setOf.get(end) !== set);
    })
    .map(({ index }) => index);
}
