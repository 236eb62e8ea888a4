import {
  asFound,
  type Circuit,
  type Part,
  type PartKindName,
  partKinds,
  type Value,
} from '@setwright/circuit';

/** A part that was measured, beside what it should be. */
export type FoundPart = { readonly part: Part } & (
  | { readonly kind: 'open' | 'short' }
  | {
      readonly kind: 'value';
      readonly found: Value;
      readonly wanted: Value;
      /** The slot that both belong to: `resistance`, `capacitance`, `inductance` … */
      readonly slot: string;
    }
);

/** What a part was found to be; undefined where it was not measured, or not against anything. */
export function foundOf(part: Part): FoundPart | undefined {
  if (part.words.has('found open')) return { part, kind: 'open' };
  if (part.words.has('found short')) return { part, kind: 'short' };
  const { found } = part.values;
  if (!found || !Number.isFinite(found.value)) return undefined;
  for (const [slot, dimension] of Object.entries(partKinds[part.kind].amounts)) {
    const wanted = part.values[slot];
    if (dimension !== found.dimension || !wanted || wanted === found) continue;
    return wanted.value > 0 ? { part, kind: 'value', found, wanted, slot } : undefined;
  }
  return undefined;
}

/**
 * How far parts were off as made, as a share, where no tolerance is stated. Common practice.
 */
const asMade: Readonly<Partial<Record<PartKindName, number>>> = {
  leak: 0.3,
  condenser: 0.2,
  resistor: 0.2,
  choke: 0.2,
  phones: 0.2,
  horn: 0.2,
  speaker: 0.2,
  rheostat: 0.1,
  potentiometer: 0.1,
};

/** A winding on iron was off by so much as made, in ohms and in inductance. */
const IRON_AS_MADE = 0.2;

/** The tolerance of a part, stated or as made; undefined where nothing is known of it. */
export function toleranceOf(
  circuit: Circuit,
  part: Part,
): { readonly share: number; readonly isStated: boolean } | undefined {
  const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  const stated = part.values.tolerance ?? owner?.values.tolerance;
  if (stated && stated.value > 0) return { share: stated.value, isStated: true };
  const isIron = owner?.kind === 'transformer' && !owner.words.has('air');
  const share = part.kind === 'winding' ? (isIron ? IRON_AS_MADE : undefined) : asMade[part.kind];
  return share === undefined ? undefined : { share, isStated: false };
}

/** The set with one of its parts as found, and the others as they should be. */
export function withFound(circuit: Circuit, name: string): Circuit {
  const parts = circuit.parts.map((part) => {
    const isIt = part.name === name || part.owner === name;
    return isIt ? part : asItShouldBe(part);
  });
  return asFound({ ...circuit, parts, partNamed: new Map(parts.map((part) => [part.name, part])) });
}

function asItShouldBe(part: Part): Part {
  if (!part.values.found && !part.words.has('found open') && !part.words.has('found short'))
    return part;
  const { found: _, ...values } = part.values;
  const words = new Set(part.words);
  words.delete('found open');
  words.delete('found short');
  return { ...part, values, words };
}
