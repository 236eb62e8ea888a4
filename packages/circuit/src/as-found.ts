import { assemble } from './assemble.ts';
import { partKinds } from './kinds.ts';
import type { Circuit, Join, Part, Value } from './model.ts';
import { isSupply } from './supplies.ts';

/**
 * The set as it stands on the bench: what each part was found to be, in place of what it should
 * be. Never throws.
 *
 * - A value that was found stands in place of the part's own of the same kind (ohms for ohms).
 *   Ranges, such as a variable condenser's, stay as they are.
 * - A part found open passes nothing: its terminals stay wired, but it has no ends that anything
 *   goes through. A tube found open has a burnt-out filament. Found on a coil or transformer, it
 *   speaks for every winding.
 * - A part found shorted has all its ends on one junction. Tubes and supplies are left alone: the
 *   word does not say what touches what.
 */
export function asFound(circuit: Circuit): Circuit {
  const { partNamed: _, endNamed: __, partOfEnd: ___, junctions: ____, ...said } = circuit;
  const shorts = circuit.parts.flatMap((part) => (isFound(circuit, part, 'short') ? part : []));
  const standing = assemble({
    ...said,
    joins: [...circuit.joins, ...shorts.flatMap(shortOf)],
    parts: circuit.parts.map((part) => ({
      ...withFoundValue(part),
      ends: part.ends.map(({ name }) => name),
    })),
  });
  const parts = standing.parts.map((part) =>
    isFound(circuit, part, 'open') ? brokenOff(part) : part,
  );
  const partNamed = new Map(parts.map((part) => [part.name, part]));
  const partOfEnd = new Map<string, Part>();
  for (const [id, part] of standing.partOfEnd) partOfEnd.set(id, partNamed.get(part.name) ?? part);
  return { ...standing, parts, partNamed, partOfEnd };
}

/** Whether a part, or the coil or transformer that it is a winding of, was found so. */
function isFound(circuit: Circuit, part: Part, how: 'open' | 'short'): boolean {
  const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  return part.words.has(`found ${how}`) || owner?.words.has(`found ${how}`) === true;
}

function withFoundValue(part: Part): Part {
  const { found } = part.values;
  const slot = found && slotFor(part, found);
  return found && slot ? { ...part, values: { ...part.values, [slot]: found } } : part;
}

/** The slot that a found value belongs in: the first that a part of this kind has for it. */
function slotFor(part: Part, found: Value): string | undefined {
  const slots = Object.entries(partKinds[part.kind].amounts).flatMap(([slot, dimension]) =>
    dimension === found.dimension ? slot : [],
  );
  return slots.find((slot) => part.values[slot]) ?? slots.find((slot) => !part.ranges[slot]);
}

function shortOf(part: Part): Join[] {
  const [first, ...others] = part.ends;
  if (!first || part.kind === 'tube' || isSupply(part)) return [];
  return others.map(({ id }) => ({
    from: first.id,
    to: id,
    place: part.place,
    said: 'found short',
  }));
}

/** A part through which nothing passes any more. */
function brokenOff(part: Part): Part {
  const ends = part.kind === 'tube' ? part.ends.filter(({ name }) => name !== 'filament+') : [];
  return { ...part, ends, contacts: [], taps: [], positions: [] };
}
