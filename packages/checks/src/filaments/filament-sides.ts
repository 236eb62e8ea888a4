import type { Circuit, Conduction, End, JoinedBranch, Part, Place } from '@setwright/circuit';
import { type JoinedGroups, joinedGroups } from '../wiring/joined-groups.ts';

/** A resistor in a filament lead has no more than this, in ohms. Common practice. */
const MOST_LEAD_OHMS = 100;

/** Junctions joined by what a filament lead may pass: the sides between which filaments lie. */
export function sidesOf(circuit: Circuit, conduction: Conduction): JoinedGroups {
  const sides = joinedGroups(circuit.junctions.length);
  for (const branch of conduction.branches) {
    if (isLead(circuit, branch)) sides.join(branch.fromJunction, branch.toJunction);
  }
  return sides;
}

function isLead(circuit: Circuit, { part, direct }: JoinedBranch): boolean {
  if (direct.kind !== 'conducts') return false;
  const passed = circuit.partNamed.get(part);
  switch (passed?.kind) {
    case undefined:
    case 'tube':
    case 'potentiometer':
    case 'leak':
      return false;
    case 'winding':
      return passed.owner !== undefined && circuit.partNamed.get(passed.owner)?.kind === 'coil';
    default:
      return (direct.ohms ?? 0) <= MOST_LEAD_OHMS;
  }
}

/** Where the path of an unfed side ends. */
export interface Break {
  readonly part: Part;
  readonly end: End;
  readonly place: Place;
  readonly message: string;
  /** True for a contact that stands open, false for an end that nothing is joined to. */
  readonly isContact: boolean;
}

export interface Breaks {
  /** Contacts that stand open between a side and one that a battery feeds, by side. */
  readonly contacts: ReadonlyMap<number, Break>;
  /** Ends of parts on the way that nothing is joined to, by side. */
  readonly loose: ReadonlyMap<number, Break>;
}

/** Finds where the path from each side without a battery ends; `fed` are those with one. Linear. */
export function breaksOf(
  circuit: Circuit,
  conduction: Conduction,
  sides: JoinedGroups,
  fed: ReadonlySet<number>,
): Breaks {
  const contacts = new Map<number, Break>();
  const loose = new Map<number, Break>();
  const contact = (branch: JoinedBranch, id: string, side: number): void => {
    const part = circuit.partNamed.get(branch.part);
    const end = circuit.endNamed.get(id);
    if (!part || !end || contacts.has(side)) return;
    const { place, name } = part;
    contacts.set(side, {
      part,
      end,
      place,
      message: `${name} is open between them`,
      isContact: true,
    });
  };
  for (const branch of conduction.branches) {
    const { direct, fromJunction, toJunction } = branch;
    if (direct.kind === 'conducts') {
      const part = circuit.partNamed.get(branch.part);
      for (const id of [branch.from, branch.to]) {
        const end = circuit.endNamed.get(id);
        const side = end === undefined ? -1 : sides.of(end.junction);
        if (!part || !end || fed.has(side) || loose.has(side)) continue;
        if (part.kind === 'winding' || !isLoose(circuit, end)) continue;
        loose.set(side, {
          part,
          end,
          place: part.place,
          message: `${id} is joined to nothing`,
          isContact: false,
        });
      }
      continue;
    }
    const kind = circuit.partNamed.get(branch.part)?.kind;
    if (direct.kind !== 'blocks' || kind === 'condenser' || kind === 'tube') continue;
    const [from, to] = [sides.of(fromJunction), sides.of(toJunction)];
    if (!fed.has(from) && fed.has(to)) contact(branch, branch.from, from);
    if (!fed.has(to) && fed.has(from)) contact(branch, branch.to, to);
  }
  return { contacts, loose };
}

/** Whether nothing but a bus or post shares an end's junction. */
function isLoose(circuit: Circuit, end: End): boolean {
  const others = circuit.junctions[end.junction]?.terminals ?? [];
  return others.every((id) => {
    const kind = circuit.partOfEnd.get(id)?.kind;
    return id === end.id || kind === 'bus' || kind === 'post';
  });
}
