import { isSupply } from '@setwright/circuit';
import { type Groups, separateGroups } from './islands.ts';
import type { Element } from './network.ts';

/** Rheostats side by side, or one ballast, and the filaments that they are to bring right. */
export interface ControlGroup {
  readonly kind: 'rheostat' | 'ballast';
  /** Indices into the elements. */
  readonly members: readonly number[];
  /**
   * The filaments to be brought to their rated volts, as indices into the elements. Empty for a
   * rheostat that is to be full on, because others behind it do the work, and for a ballast,
   * which holds its own current.
   */
  readonly filaments: readonly number[];
}

/** Resistances up to this count as the leads of a filament circuit. Common practice. */
const MOST_LEAD_OHMS = 50;

/**
 * Finds what every unset rheostat and every ballast of a set is for.
 *
 * Junctions that wires, contacts and other low resistances tie together are one; those that a
 * supply's tap is on are fed. Going out from them, a control leads to what is behind it: the
 * filaments with an end there are its own. A tube behind two controls belongs to the one with
 * fewer tubes; the one that is left with none stands full on. A rheostat with neither a filament
 * nor another control behind it lights nothing and is not among the groups. Linear.
 *
 * @param nodeOf the junctions that are one point electrically have the same number.
 */
export function controlGroups(
  elements: readonly Element[],
  junctions: number,
  nodeOf: (junction: number) => number,
): readonly ControlGroup[] {
  if (!elements.some(({ control }) => control !== undefined)) return [];
  const leads = separateGroups(junctions);
  const besideFilament = new Set(
    elements.filter(isFilament).map((element) => nodePair(element, nodeOf)),
  );
  for (const element of elements) {
    const { fromJunction, toJunction } = element.branch;
    if (isLead(element) && !besideFilament.has(nodePair(element, nodeOf)))
      leads.merge(fromJunction, toJunction);
  }
  const { groups, parents } = controlsOutward(elements, leads);

  const behind = new Map<number, number[]>();
  for (const [index, element] of elements.entries()) {
    if (!isFilament(element) || !element.part.tubeType?.filamentVolts) continue;
    const from = leads.of(element.branch.fromJunction);
    const to = leads.of(element.branch.toJunction);
    if (from === to) continue;
    for (const lead of [from, to]) {
      const here = behind.get(lead);
      if (here) here.push(index);
      else behind.set(lead, [index]);
    }
  }
  const claimed = new Set<number>();
  const found: ControlGroup[] = [];
  const fewestFirst = [...groups].sort(
    ([a], [b]) => (behind.get(a)?.length ?? 0) - (behind.get(b)?.length ?? 0),
  );
  for (const [lead, { kind, members }] of fewestFirst) {
    const filaments = (behind.get(lead) ?? []).filter((filament) => !claimed.has(filament));
    if (kind === 'ballast') {
      for (const filament of filaments) claimed.add(filament);
      found.push({ kind, members, filaments: [] });
      continue;
    }
    if (filaments.length === 0 && !parents.has(lead) && !behind.has(lead)) continue;
    for (const filament of filaments) claimed.add(filament);
    found.push({ kind, members, filaments });
  }
  return found;
}

interface Outward {
  readonly kind: 'rheostat' | 'ballast';
  readonly members: number[];
}

/** Controls by what they lead to, going out from what supplies feed; and what lies before another. */
function controlsOutward(
  elements: readonly Element[],
  leads: Groups,
): { readonly groups: ReadonlyMap<number, Outward>; readonly parents: ReadonlySet<number> } {
  const at = new Map<number, number[]>();
  const before = new Map<number, number | undefined>();
  for (const [index, { control, part, branch }] of elements.entries()) {
    const ends = [leads.of(branch.fromJunction), leads.of(branch.toJunction)] as const;
    if (isSupply(part)) for (const lead of ends) before.set(lead, undefined);
    if (control === undefined || ends[0] === ends[1]) continue;
    for (const lead of ends) {
      const here = at.get(lead);
      if (here) here.push(index);
      else at.set(lead, [index]);
    }
  }
  const groups = new Map<number, Outward>();
  // A map is walked in the order of entry, so what is added on the way is walked too.
  for (const here of before.keys()) {
    for (const index of at.get(here) ?? []) {
      const { branch, control } = elements[index] as Element;
      const from = leads.of(branch.fromJunction);
      const there = from === here ? leads.of(branch.toJunction) : from;
      if (!before.has(there)) {
        before.set(there, here);
        groups.set(there, { kind: control ?? 'rheostat', members: [index] });
      } else if (before.get(there) === here) {
        const group = groups.get(there);
        if (group?.kind === control) group?.members.push(index);
      }
    }
  }
  const parents = new Set<number>();
  for (const parent of before.values()) if (parent !== undefined) parents.add(parent);
  return { groups, parents };
}

function isFilament({ part }: Element): boolean {
  return part.kind === 'tube';
}

function isLead(element: Element): boolean {
  const { part, control, ohms } = element;
  if (control !== undefined || isFilament(element) || isSupply(part)) return false;
  if (part.kind === 'potentiometer' || part.kind === 'lamp') return false;
  return ohms < MOST_LEAD_OHMS;
}

function nodePair({ branch }: Element, nodeOf: (junction: number) => number): string {
  const from = nodeOf(branch.fromJunction);
  const to = nodeOf(branch.toJunction);
  return from < to ? `${from}-${to}` : `${to}-${from}`;
}
