import type { Circuit, Contact, End, Part } from '@setwright/circuit';
import type { Pin, Scene } from './scene.ts';

/**
 * The circuit with every further pole of a switch or jack as a switch of its own: a contact between
 * ends of other parts, which else would be nowhere on paper. `withoutPoles` gives a scene its parts
 * back.
 */
export function withPoles(circuit: Circuit): Circuit {
  const poles: Part[] = [];
  const terminals = circuit.junctions.map((junction) => [...junction.terminals]);
  const parts = circuit.parts.map((part): Part => {
    const further = part.contacts.filter((contact) => isFurther(circuit, part, contact));
    for (const [index, contact] of further.entries()) {
      const pole = poleOf(circuit, part, contact, index + 2);
      for (const { junction, id } of pole.ends) terminals[junction]?.push(id);
      poles.push(pole);
    }
    if (further.length === 0) return part;
    return { ...part, contacts: part.contacts.filter((contact) => !further.includes(contact)) };
  });
  if (poles.length === 0) return circuit;
  const all = [...parts, ...poles];
  const ends = all.flatMap((part) => part.ends.map((end) => ({ part, end })));
  return {
    ...circuit,
    parts: all,
    junctions: circuit.junctions.map((junction, index) => ({
      ...junction,
      terminals: terminals[index] ?? [],
    })),
    partNamed: new Map(all.map((part) => [part.name, part])),
    endNamed: new Map(ends.map(({ end }) => [end.id, end])),
    partOfEnd: new Map(ends.map(({ part, end }) => [end.id, part])),
  };
}

/** Whether a contact joins two junctions and neither of its ends is its part's own. */
function isFurther(circuit: Circuit, part: Part, { from, to }: Contact): boolean {
  if (part.kind !== 'switch' && part.kind !== 'jack') return false;
  const ends = [from, to].map((id) => circuit.endNamed.get(id));
  return (
    ends[0] !== undefined &&
    ends[1] !== undefined &&
    ends[0].junction !== ends[1].junction &&
    [from, to].every((id) => circuit.partOfEnd.get(id) !== part)
  );
}

/** What stands between a part's name and the number of its pole: no name has it. */
const POLE = ' pole ';

function poleOf(circuit: Circuit, part: Part, contact: Contact, number: number): Part {
  const name = `${part.name}${POLE}${number}`;
  const end = (own: string, id: string): End => ({
    name: own,
    id: `${name}.${own}`,
    junction: circuit.endNamed.get(id)?.junction ?? 0,
    joins: [],
  });
  return {
    ...part,
    name,
    kind: 'switch',
    ends: [end('start', contact.from), end('finish', contact.to)],
    values: {},
    ranges: {},
    positions: ['open', 'closed'],
    drawnAt: contact.closedAt.includes(part.drawnAt) ? 1 : 0,
    contacts: [],
  };
}

/** A scene of `withPoles(circuit)` in terms of the circuit itself. */
export function withoutPoles(circuit: Circuit, scene: Scene): Scene {
  const contactOf = new Map<string, readonly [string, Contact]>();
  for (const part of circuit.parts) {
    const further = part.contacts.filter((contact) => isFurther(circuit, part, contact));
    for (const [index, contact] of further.entries())
      contactOf.set(`${part.name}${POLE}${index + 2}`, [part.name, contact]);
  }
  if (contactOf.size === 0) return scene;
  const owner = (name: string): string => contactOf.get(name)?.[0] ?? name;
  return {
    ...scene,
    symbols: scene.symbols.map((symbol) => {
      const [part, contact] = contactOf.get(symbol.part) ?? [];
      if (part === undefined || !contact) return symbol;
      const contacts = symbol.pins.map(
        ({ end, at }): Pin => ({ end: end.endsWith('.start') ? contact.from : contact.to, at }),
      );
      return { ...symbol, part, pins: [], contacts };
    }),
    labels: scene.labels.map((label) =>
      label.part === undefined ? label : { ...label, part: owner(label.part) },
    ),
    spoken: Object.fromEntries(
      Object.entries(scene.spoken).filter(([name]) => !contactOf.has(name)),
    ),
  };
}
