import { type Circuit, terminalName } from '@setwright/circuit';
import { inNaturalOrder } from './natural-order.ts';
import type { PlainSet } from './plain-set.ts';
import { standing } from './standing.ts';

/**
 * What leads and their ends are called, which have no name of their own: after the best known
 * terminals of what they join, whichever the text names. By the names that the reader of the text
 * gave them.
 */
export function leadNames(set: PlainSet, circuit: Circuit): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const leads = set.things.filter(({ kind }) => kind === 'lead');
  if (leads.length === 0) return names;
  const rank = standing(set.things);
  const junctionOf = new Map(
    set.junctions.flatMap((terminals) => terminals.map((id) => [id, terminals] as const)),
  );
  const isLead = new Set(leads.flatMap(({ ends }) => ends));
  const nameAt = (end: string | undefined): string => {
    const others = (junctionOf.get(end ?? '') ?? []).filter((id) => !isLead.has(id));
    const best = rank.best(others);
    return best === undefined ? '~' : terminalName(best, circuit.partOfEnd.get(best));
  };
  const told = leads.map((lead) => {
    const ends = [...lead.ends].sort((a, b) => inNaturalOrder(nameAt(a), nameAt(b)));
    const said = JSON.stringify(Object.entries(lead.facts).sort());
    return { lead, ends, name: `lead ${nameAt(ends[0])} to ${nameAt(ends[1])}`, said };
  });
  told.sort((a, b) => inNaturalOrder(a.name, b.name) || (a.said < b.said ? -1 : 1));
  const alike = new Map<string, number>();
  for (const { lead, ends, name } of told) {
    const nth = (alike.get(name) ?? 0) + 1;
    alike.set(name, nth);
    const full = nth === 1 ? name : `${name} (${nth})`;
    names.set(lead.id, full);
    for (const [index, end] of ends.entries())
      names.set(end, `${full}.${index === 0 ? 'start' : 'finish'}`);
  }
  return names;
}
