import type { PartKindName } from '@setwright/circuit';
import { type Phrase, phrasesKey } from '../plain/phrase.ts';
import type { PlainSet, Thing, ThingKind } from '../plain/plain-set.ts';

/** A part as it is told from others: a coil or transformer with its windings. */
export interface Unit {
  readonly id: string;
  readonly kind: ThingKind;
  /** Parts of one family may take one another's place: a leak and a resistor. */
  readonly family: string;
  /** Terminals by what they are called within it: `start`, `grid.finish`. */
  readonly ends: ReadonlyMap<string, string>;
  /** What is said of it by slot, those of a winding with its own name before them. */
  readonly facts: ReadonlyMap<string, readonly Phrase[]>;
  /** Windings by what they are called within it. */
  readonly windings: ReadonlyMap<string, string>;
}

const families: Partial<Record<ThingKind, string>> = {
  resistor: 'resistance',
  leak: 'resistance',
  rheostat: 'resistance',
  ballast: 'resistance',
  phones: 'sound',
  horn: 'sound',
  speaker: 'sound',
  battery: 'supply',
  eliminator: 'supply',
};

const others: ReadonlySet<ThingKind> = new Set<ThingKind>([
  'receiver',
  'stage',
  'gang',
  'dial',
  'bench',
  'suppose',
  'tube type',
]);

/** Whether a thing is a part, with ends that may be joined. */
export function isPart(thing: Thing): thing is Thing & { readonly kind: PartKindName } {
  return !others.has(thing.kind);
}

/** The parts of a set, windings with their coil. */
export function unitsOf(set: PlainSet): readonly Unit[] {
  const owners = new Set(set.things.map(({ id }) => id));
  const windings = new Map<string, Thing[]>();
  const parts: Thing[] = [];
  for (const thing of set.things) {
    if (!isPart(thing)) continue;
    if (thing.owner !== undefined && owners.has(thing.owner))
      windings.set(thing.owner, [...(windings.get(thing.owner) ?? []), thing]);
    else parts.push(thing);
  }
  return parts.map((thing) => unitOf(thing, windings.get(thing.id) ?? []));
}

function unitOf(thing: Thing, windings: readonly Thing[]): Unit {
  const ends = new Map(thing.ends.map((end) => [end.slice(thing.id.length), end]));
  const facts = new Map(Object.entries(thing.facts));
  const own = new Map<string, string>();
  for (const each of windings) {
    const name = each.id.slice(thing.id.length);
    own.set(name, each.id);
    for (const end of each.ends) ends.set(end.slice(thing.id.length), end);
    for (const [slot, phrases] of Object.entries(each.facts)) facts.set(`${name} ${slot}`, phrases);
  }
  const family = families[thing.kind] ?? thing.kind;
  return { id: thing.id, kind: thing.kind, family, ends, facts, windings: own };
}

/** What is said of a part, with names left out: they may have changed. */
export function namelessKey(phrases: readonly Phrase[]): string {
  const nameless = phrases.map((phrase) =>
    phrase.map((word) => (typeof word === 'string' || 'value' in word ? word : '…')),
  );
  return phrasesKey(nameless, (id) => id);
}
