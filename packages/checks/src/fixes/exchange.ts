import { type Circuit, type End, type Fix, isSupply, type Join } from '@setwright/circuit';
import { nameOf } from '../words/finding.ts';

type Edits = Fix['edits'];

/** Words of a join whose place holds more than the name of one terminal. */
const notOneName: ReadonlySet<string> = new Set(['wire', 'across', 'frame']);

/** The joins of a set by terminal, to look up more than one. */
export interface JoinsByTerminal {
  at(terminal: string): readonly Join[];
  /** Whether a contact of a selector or jack closes on the terminal. */
  isContact(terminal: string): boolean;
}

/** Gathers the joins of a set by terminal; linear, and only when first asked. */
export function joinsByTerminal(circuit: Circuit): JoinsByTerminal {
  let joins: Map<string, Join[]> | undefined;
  let contacts: Set<string> | undefined;
  const gathered = (): Map<string, Join[]> => {
    const by = new Map<string, Join[]>();
    for (const join of circuit.joins) {
      for (const id of new Set([join.from, join.to])) {
        const here = by.get(id);
        if (here) here.push(join);
        else by.set(id, [join]);
      }
    }
    return by;
  };
  return {
    at(terminal) {
      joins ??= gathered();
      return joins.get(terminal) ?? [];
    },
    isContact(terminal) {
      contacts ??= new Set(
        circuit.parts.flatMap((part) => part.contacts.flatMap(({ from, to }) => [from, to])),
      );
      return contacts.has(terminal);
    },
  };
}

/**
 * The edits that exchange what two ends are joined to. Undefined where the text does not say each
 * join by the name of one terminal, so that a person has to do it.
 *
 * @param joins gathered beforehand, where more than a few ends are exchanged.
 */
export function exchanged(
  circuit: Circuit,
  a: End,
  b: End,
  joins: JoinsByTerminal = joinsByTerminal(circuit),
): Edits | undefined {
  const edits: { place: Join['place']; text: string }[] = [];
  const own: { readonly end: End; readonly join: Join }[] = [];
  for (const end of [a, b]) {
    const other = end === a ? b : a;
    if (joins.isContact(end.id)) return undefined;
    for (const join of joins.at(end.id)) {
      if (notOneName.has(join.said)) return undefined;
      if (join.from === end.id) own.push({ end, join });
      else edits.push({ place: join.place, text: nameOf(circuit, other.id) });
    }
  }
  if (own.length > 0) {
    const [first, second] = own;
    if (own.length !== 2 || !first || !second || first.end === second.end) return undefined;
    const names = [first.join.to, second.join.to].map((id) => unambiguous(circuit, id));
    const [firstName, secondName] = names;
    if (firstName === undefined || secondName === undefined) return undefined;
    edits.push({ place: first.join.place, text: secondName });
    edits.push({ place: second.join.place, text: firstName });
  }
  return edits.length > 0 ? edits : undefined;
}

/** A terminal's name as it can be written; undefined for a tap that two supplies have. */
function unambiguous(circuit: Circuit, id: string): string | undefined {
  const part = circuit.partOfEnd.get(id);
  const name = nameOf(circuit, id);
  if (!part || !isSupply(part)) return name;
  const homes = circuit.parts.filter(
    (supply) => isSupply(supply) && supply.ends.some((end) => end.name === name),
  );
  return homes.length === 1 ? name : undefined;
}
