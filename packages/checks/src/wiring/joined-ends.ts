import type { Circuit, End, Part } from '@setwright/circuit';

/** Which ends of a set are joined to something, by wire or by a contact at any position. */
export interface JoinedEnds {
  /** Whether anything is joined to an end. A bus alone is nothing; a post waits for something. */
  readonly isJoined: (end: End) => boolean;
  /** Whether a junction has an end of some part on it, and not only the names of posts and buses. */
  readonly isUsed: (junction: number) => boolean;
}

/** Looks through the set once; each question is then answered at once. */
export function joinedEnds(circuit: Circuit): JoinedEnds {
  const touched = contactJunctions(circuit);
  const kindOf = (terminal: string) => circuit.partOfEnd.get(terminal)?.kind;
  const used = circuit.junctions.map(({ index, terminals }) => {
    if (touched.has(index)) return true;
    return terminals.some((terminal) => !['post', 'bus'].includes(kindOf(terminal) ?? ''));
  });
  return {
    isUsed: (junction) => used[junction] ?? false,
    isJoined: (end) => {
      if (touched.has(end.junction)) return true;
      const here = circuit.junctions[end.junction]?.terminals ?? [];
      return here.some((terminal) => terminal !== end.id && kindOf(terminal) !== 'bus');
    },
  };
}

/** Junctions that a contact of another part can close on, as the studs of a selector. */
export function contactJunctions(circuit: Circuit): ReadonlySet<number> {
  const found = new Set<number>();
  const add = (part: Part, terminal: string) => {
    const owner = circuit.partOfEnd.get(terminal);
    const junction = circuit.endNamed.get(terminal)?.junction;
    if (owner !== undefined && owner !== part && junction !== undefined) found.add(junction);
  };
  for (const part of circuit.parts) {
    for (const { from, to } of part.contacts) {
      add(part, from);
      add(part, to);
    }
  }
  return found;
}
