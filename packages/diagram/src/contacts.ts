import type { Circuit, End, Part } from '@setwright/circuit';

/** An end that nothing but a contact of a jack or selector leads to. */
export interface Led {
  readonly end: End;
  /** The jack or selector, and its own end at the other side of the contact. */
  readonly holder: Part;
  readonly by: End;
}

/**
 * Ends that are joined to nothing but what lies across their own part, and that a selector's stud
 * or a jack's own spring leads to: they are drawn with a wire to it. What is plugged into a jack is
 * not among them.
 */
export function ledEnds(circuit: Circuit): ReadonlyMap<string, Led> {
  const led = new Map<string, Led>();
  for (const holder of circuit.parts) {
    if (holder.kind !== 'selector' && holder.kind !== 'jack') continue;
    for (const { from, to, closedAt } of holder.contacts) {
      // A jack is drawn without a plug.
      if (holder.kind === 'jack' && !closedAt.includes(0)) continue;
      const own = [from, to].find((id) => circuit.partOfEnd.get(id) === holder);
      const other = [from, to].find((id) => circuit.partOfEnd.get(id) !== holder);
      const by = own === undefined ? undefined : circuit.endNamed.get(own);
      const end = other === undefined ? undefined : circuit.endNamed.get(other);
      if (!by || !end || led.has(end.id)) continue;
      if (!isAllAcross(circuit, end)) continue;
      led.set(end.id, { end, holder, by });
    }
  }
  return led;
}

/** Whether all else on an end's junction lies across the part whose end it is. */
function isAllAcross(circuit: Circuit, end: End): boolean {
  const own = circuit.partOfEnd.get(end.id);
  const span = (own?.ends ?? [])
    .filter(({ name }) => name === 'start' || name === 'finish')
    .map(({ junction }) => junction);
  return (circuit.junctions[end.junction]?.terminals ?? []).every((id) => {
    const part = circuit.partOfEnd.get(id);
    if (id === end.id) return true;
    if (!part || part === own || part.ends.length !== 2) return false;
    return part.ends.every(({ junction }) => span.includes(junction));
  });
}

/** The parts that are plugged into a jack, in the order of its positions. */
export function pluggedInto(circuit: Circuit, jack: Part): Part[] {
  const found = new Set<Part>();
  for (const { from, to, closedAt } of jack.contacts) {
    if (closedAt.includes(0)) continue;
    for (const id of [from, to]) {
      const part = circuit.partOfEnd.get(id);
      const isLoose = part?.ends.every(
        ({ junction }) => (circuit.junctions[junction]?.terminals.length ?? 0) <= 1,
      );
      if (part && part !== jack && isLoose) found.add(part);
    }
  }
  return [...found];
}
