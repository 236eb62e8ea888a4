import type { Conduction, End } from '@setwright/circuit';

/** Whether nothing at all is wired to an end: no join, and no contact that could close on it. */
export function isUnwired(conduction: Conduction, end: End): boolean {
  const { circuit } = conduction;
  if ((circuit.junctions[end.junction]?.terminals.length ?? 1) > 1) return false;
  const own = circuit.partOfEnd.get(end.id)?.name;
  return (conduction.at[end.junction] ?? []).every(({ part }) => part === own);
}
