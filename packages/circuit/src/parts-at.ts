import type { Circuit, Part } from './model.ts';

/** The parts with an end on a junction, in order of the text. */
export function partsAt(circuit: Circuit, junction: number): Part[] {
  const found = new Set<Part>();
  for (const id of circuit.junctions[junction]?.terminals ?? []) {
    const part = circuit.partOfEnd.get(id);
    if (part) found.add(part);
  }
  return [...found];
}

/** Whether a part is a winding on air, so that it has to do with radio and not with audio. */
export function isOnAir(circuit: Circuit, part: Part): boolean {
  if (part.kind === 'loop' || part.kind === 'variometer') return true;
  if (part.kind !== 'winding') return false;
  const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  return owner?.kind === 'coil' || owner?.words.has('air') === true;
}
