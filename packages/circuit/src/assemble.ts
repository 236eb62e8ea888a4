import type { Circuit, End, Join, Junction, Part } from './model.ts';

/** A part before its ends are joined: its ends by name only. */
export type PartDraft = Omit<Part, 'ends'> & { readonly ends: readonly string[] };

/** Everything the text says of a receiver, before terminals are joined to junctions. */
export type CircuitDraft = Omit<
  Circuit,
  'parts' | 'partNamed' | 'endNamed' | 'partOfEnd' | 'junctions'
> & { readonly parts: readonly PartDraft[] };

/** The full name of a part's end. A post or bus is its own terminal. */
export function endId(part: { readonly name: string; readonly kind: string }, end: string): string {
  return part.kind === 'post' || part.kind === 'bus' ? part.name : `${part.name}.${end}`;
}

/**
 * Joins terminals to junctions by union of everything that the text joins, and gives the circuit.
 * Joins that name a terminal which does not exist are passed over. Never throws.
 */
export function assemble(draft: CircuitDraft): Circuit {
  const ids = draft.parts.flatMap((part) => part.ends.map((end) => endId(part, end)));
  const order = new Map(ids.map((id, index) => [id, index]));
  const parent = ids.map((_, index) => index);
  const root = (index: number): number => {
    let at = index;
    for (;;) {
      const above = parent[at];
      if (above === undefined || above === at) return at;
      const next = parent[above] ?? above;
      parent[at] = next;
      at = next;
    }
  };
  const placesOf = new Map<string, Join[]>();
  for (const join of draft.joins) {
    const from = order.get(join.from);
    const to = order.get(join.to);
    if (from === undefined || to === undefined) continue;
    for (const id of [join.from, join.to]) {
      const said = placesOf.get(id);
      if (said) said.push(join);
      else placesOf.set(id, [join]);
    }
    const a = root(from);
    const b = root(to);
    // The lower root wins, so that a junction's first terminal is the first in the text.
    if (a !== b) parent[Math.max(a, b)] = Math.min(a, b);
  }
  const junctionOfRoot = new Map<number, number>();
  const members: string[][] = [];
  const junctionOf = new Map<string, number>();
  for (const [index, id] of ids.entries()) {
    const at = root(index);
    let junction = junctionOfRoot.get(at);
    if (junction === undefined) {
      junction = members.length;
      junctionOfRoot.set(at, junction);
      members.push([]);
    }
    members[junction]?.push(id);
    junctionOf.set(id, junction);
  }
  const parts: Part[] = draft.parts.map((part) => ({
    ...part,
    ends: part.ends.map((name) => {
      const id = endId(part, name);
      return {
        name,
        id,
        junction: junctionOf.get(id) ?? -1,
        joins: (placesOf.get(id) ?? []).map((join) => join.place),
      };
    }),
  }));
  const partOfEnd = new Map<string, Part>();
  const endNamed = new Map<string, End>();
  for (const part of parts) {
    for (const end of part.ends) {
      partOfEnd.set(end.id, part);
      endNamed.set(end.id, end);
    }
  }
  const junctions: Junction[] = members.map((terminals, index) => ({
    index,
    terminals,
    name: calling(terminals, partOfEnd),
  }));
  return {
    ...draft,
    parts,
    partNamed: new Map(parts.map((part) => [part.name, part])),
    endNamed,
    partOfEnd,
    junctions,
  };
}

const namingKinds = ['battery', 'eliminator', 'bus', 'post'] as const;

/** A junction is called after the tap, bus or post that is on it, else after its first terminal. */
function calling(terminals: readonly string[], partOfEnd: ReadonlyMap<string, Part>): string {
  for (const kind of namingKinds) {
    const named = terminals.find((id) => partOfEnd.get(id)?.kind === kind);
    if (named !== undefined) return terminalName(named, partOfEnd.get(named));
  }
  return terminals[0] ?? '';
}

/** What a person calls a terminal: a tap goes by its own name, everything else by its full one. */
export function terminalName(id: string, part: Part | undefined): string {
  if (part?.kind === 'battery' || part?.kind === 'eliminator')
    return id.slice(part.name.length + 1);
  return id;
}
