import type { Circuit, Part } from '@setwright/circuit';

/** An iron-core transformer and its windings. */
export interface IronTransformer {
  readonly part: Part;
  readonly windings: readonly Part[];
}

/** Every iron-core transformer of a set, in order of the text. */
export function ironTransformers(circuit: Circuit): readonly IronTransformer[] {
  const windings = new Map<string, Part[]>();
  for (const part of circuit.parts) {
    if (part.kind !== 'winding' || part.owner === undefined) continue;
    const here = windings.get(part.owner);
    if (here) here.push(part);
    else windings.set(part.owner, [part]);
  }
  return circuit.parts.flatMap((part) =>
    part.kind === 'transformer' && !part.words.has('air')
      ? [{ part, windings: windings.get(part.name) ?? [] }]
      : [],
  );
}
