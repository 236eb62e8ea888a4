import type { Circuit, Finding, Fix, Part, Place, Severity } from '@setwright/circuit';
import { terminalName } from '@setwright/circuit';

/** A finding with its lists filled in. */
export function finding(
  said: Pick<Finding, 'check' | 'severity' | 'message' | 'why' | 'cure' | 'place' | 'parts'> & {
    related?: Finding['related'];
    fixes?: readonly Fix[];
  },
): Finding {
  return { ...said, related: said.related ?? [], fixes: said.fixes ?? [] };
}

/** A related line: the part's own statement. */
export function alsoPart(part: Part, message: string): { place: Place; message: string } {
  return { place: part.place, message };
}

/** What a person calls a terminal: `B+67`, `V1.grid`. */
export function nameOf(circuit: Circuit, terminal: string): string {
  return terminalName(terminal, circuit.partOfEnd.get(terminal));
}

/** What a person calls a junction: by its tap, post or bus, else by its first terminal. */
export function junctionName(circuit: Circuit, junction: number): string {
  return circuit.junctions[junction]?.name ?? '';
}

/** "V1", "V1 and V2", "V1, V2 and V3". */
export function listed(words: readonly string[], last = 'and'): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

export const worse = (a: Severity, b: Severity): number => rank[a] - rank[b];

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2, hint: 3 };
