import type { Circuit, Dial, End, Gang, Part } from '@setwright/circuit';

/** A shaft further from ground than this, in volts, is live. Common practice. */
export const MOST_SHAFT_VOLTS = 30;

/** A condenser whose rotor is known, and which has its shaft on the rotor. */
export interface Rotor {
  readonly condenser: Part;
  readonly rotor: End;
  readonly stator: End;
}

/** The condensers that turn together, or one that turns alone. */
export interface Shaft {
  readonly gang: Gang | undefined;
  readonly rotors: readonly Rotor[];
  readonly dial: Dial | undefined;
}

/**
 * The shafts of a set's variable condensers. Left out are trimmers, condensers whose rotor is not
 * known, and those said to be insulated from their shaft.
 */
export function shaftsOf(circuit: Circuit): readonly Shaft[] {
  const dialOf = new Map<string, Dial>();
  for (const dial of circuit.dials) for (const driven of dial.drives) dialOf.set(driven, dial);
  const ganged = new Set<string>();
  const shafts: Shaft[] = [];
  for (const gang of circuit.gangs) {
    const rotors = gang.members.flatMap((name) => rotorOf(circuit.partNamed.get(name)));
    for (const name of gang.members) ganged.add(name);
    if (rotors.length > 0) shafts.push({ gang, rotors, dial: dialOf.get(gang.name) });
  }
  for (const part of circuit.parts) {
    if (ganged.has(part.name)) continue;
    const rotors = rotorOf(part);
    if (rotors.length > 0) shafts.push({ gang: undefined, rotors, dial: dialOf.get(part.name) });
  }
  return shafts;
}

function rotorOf(condenser: Part | undefined): Rotor[] {
  if (condenser?.kind !== 'condenser' || !condenser.sidesKnown) return [];
  if (condenser.words.has('insulated') || condenser.words.has('trimmer')) return [];
  const end = (name: string) => condenser.ends.find((candidate) => candidate.name === name);
  const rotor = end('rotor');
  const stator = end('stator');
  return rotor && stator ? [{ condenser, rotor, stator }] : [];
}
