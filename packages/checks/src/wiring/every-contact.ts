import type { Conduction, JoinedBranch } from '@setwright/circuit';

/**
 * What would conduct were every contact of every switch, selector and jack closed at once. What
 * is not joined here is joined at no position, so that positions need not be tried. Linear.
 */
export function withEveryContactClosed(conduction: Conduction): Conduction {
  const { circuit } = conduction;
  const at: JoinedBranch[][] = circuit.junctions.map(() => []);
  const branches = conduction.branches.map((branch) => {
    const hasContacts = (circuit.partNamed.get(branch.part)?.contacts.length ?? 0) > 0;
    if (branch.direct.kind !== 'blocks' || !hasContacts) return branch;
    const direct = { kind: 'conducts', ohms: 0, because: 'its contact may close' } as const;
    return { ...branch, direct };
  });
  for (const branch of branches) {
    at[branch.fromJunction]?.push(branch);
    if (branch.toJunction !== branch.fromJunction) at[branch.toJunction]?.push(branch);
  }
  return { ...conduction, branches, at };
}
