import { type Circuit, isSupply, type Part, type SupplyTap } from '@setwright/circuit';
import { nameOf } from './finding.ts';

/** What a person calls a tap: `B+45`, or `B+45 of B2` where another supply has one so named. */
export function tapWords(circuit: Circuit, terminal: string): string {
  const name = nameOf(circuit, terminal);
  const supply = circuit.partOfEnd.get(terminal);
  if (!supply || !isSupply(supply)) return name;
  const isShared = circuit.parts.some(
    (part) => part !== supply && isSupply(part) && part.ends.some((end) => end.name === name),
  );
  return isShared ? `${name} of ${supply.name}` : name;
}

/** The full name of a supply's tap. */
export function tapTerminal(supply: Part, tap: SupplyTap): string {
  return `${supply.name}.${tap.end}`;
}

/** The junction of a supply's tap. */
export function tapJunction(supply: Part, tap: SupplyTap | undefined): number | undefined {
  return supply.ends.find((end) => end.name === tap?.end)?.junction;
}
