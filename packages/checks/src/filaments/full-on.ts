import type { Part } from '@setwright/circuit';
import type { FilamentGroup } from './filament-groups.ts';
import { groupVolts } from './group-volts.ts';

/** What is left of a control that is turned full on, in ohms. */
const FULL_ON = 0.01;

/**
 * Amperes through some parts of a filament group when all its rheostats are turned full on; a part
 * that is a rheostat itself as well. Empty where the group's resistances are not all known.
 */
export function amperesFullOn(
  group: FilamentGroup,
  isWanted: (part: Part) => boolean,
): ReadonlyMap<string, number> {
  const { branches } = group;
  const wanted = branches.some(({ part }) => isWanted(part));
  if (!group.known || !wanted) return new Map();
  const turned = new Map<number, number>();
  for (const [index, { part }] of branches.entries())
    if (part.kind === 'rheostat' || part.words.has('variable')) turned.set(index, FULL_ON);
  const volts = groupVolts(group, { ohms: turned });
  const found = new Map<string, number>();
  for (const [index, { part, ohms }] of branches.entries()) {
    if (!isWanted(part)) continue;
    const amperes = Math.abs(volts(index)) / (turned.get(index) ?? ohms);
    if (Number.isFinite(amperes))
      found.set(part.name, Math.max(amperes, found.get(part.name) ?? 0));
  }
  return found;
}
