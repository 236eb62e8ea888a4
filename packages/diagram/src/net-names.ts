import type { Circuit } from '@setwright/circuit';
import { naturally } from './natural-order.ts';

const rank: Readonly<Record<string, number>> = { battery: 0, eliminator: 0, bus: 1, post: 2 };

/**
 * What each junction is called on paper: a tap, a bus or a post if one is on it, else its first
 * terminal by name. The order of the text plays no part in it. No two junctions share a name.
 */
export function netNames(circuit: Circuit): string[] {
  const taken = new Map<string, number>();
  return circuit.junctions.map(({ terminals, index }) => {
    const choices = terminals
      .map((id) => {
        const part = circuit.partOfEnd.get(id);
        const supply = part?.kind === 'battery' || part?.kind === 'eliminator';
        const name = supply && part ? id.slice(part.name.length + 1) : id;
        const filament = part?.kind === 'tube' && id.includes('.filament');
        return { id, name, rank: rank[part?.kind ?? ''] ?? (filament ? 3 : 4) };
      })
      .sort((a, b) => a.rank - b.rank || naturally(a.name, b.name));
    const best = choices[0];
    if (!best) return `${index}`;
    // Two batteries may each have a tap of one name; the full name tells them apart.
    const name = taken.has(best.name) ? best.id : best.name;
    taken.set(name, index);
    return name;
  });
}
