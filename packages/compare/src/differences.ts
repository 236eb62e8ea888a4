import type { Phrase } from './plain/phrase.ts';
import type { Thing, ThingKind } from './plain/plain-set.ts';

/** Something that goes by another name in the new set. */
export interface Renamed {
  readonly kind: ThingKind;
  readonly before: string;
  readonly after: string;
}

/** A terminal that is new, and where it goes. */
export interface EndAdded {
  readonly end: string;
  /** Another terminal of its junction; undefined where it is joined to nothing. */
  readonly to: string | undefined;
}

/** A terminal that is gone, and where it was. */
export interface EndRemoved {
  readonly end: string;
  /** What its junction was best known by, under its old name; undefined: joined to nothing. */
  readonly from: string | undefined;
}

/** Something that the new set has and the old one had not. */
export interface Added {
  readonly thing: Thing;
  readonly ends: readonly EndAdded[];
}

/** Something that the old set had and the new one has not; under its old name. */
export interface Removed {
  readonly thing: Thing;
  readonly ends: readonly EndRemoved[];
}

/** A tap that an old part gained or lost. */
export type TapAdded = EndAdded & { readonly thing: string };
export type TapRemoved = EndRemoved & { readonly thing: string };

/** Terminals that were joined to one another at one point and are so at another. */
export interface Moved {
  readonly ends: readonly string[];
  /** What the point they left is best known by; undefined: they were joined to nothing else. */
  readonly from: string | undefined;
  /** A terminal of the point they came to; undefined: they are joined to nothing else now. */
  readonly to: string | undefined;
}

/** What is said otherwise of something, by slot; an empty list is nothing said. */
export interface Changed {
  /** Its id in the new set. */
  readonly thing: string;
  readonly kind: ThingKind;
  readonly slot: string;
  readonly before: readonly Phrase[];
  readonly after: readonly Phrase[];
}

/**
 * How one set differs from another. Names are those of the new set, but for what is gone.
 * `applyDifferences` makes the new set of the old one and these.
 */
export interface Differences {
  readonly renamed: readonly Renamed[];
  /** Taps that go by another name though the part that they are of does not. */
  readonly tapsRenamed: readonly Renamed[];
  readonly removed: readonly Removed[];
  readonly added: readonly Added[];
  readonly tapsRemoved: readonly TapRemoved[];
  readonly tapsAdded: readonly TapAdded[];
  readonly changed: readonly Changed[];
  readonly moved: readonly Moved[];
}

/** Whether two sets say the same. A lead has no name of its own that could change. */
export function isSame(differences: Differences): boolean {
  return weightOf(differences) === 0;
}

/** How much two sets differ; 0 for the same set. */
export function weightOf(differences: Differences): number {
  const { renamed, tapsRenamed, removed, added, tapsRemoved, tapsAdded, changed, moved } =
    differences;
  const gone = [...removed, ...added];
  return (
    renamed.filter(({ kind }) => kind !== 'lead' && kind !== 'winding').length +
    tapsRenamed.length +
    gone.reduce((sum, { thing }) => sum + 1.5 + thing.ends.length, 0) +
    tapsRemoved.length +
    tapsAdded.length +
    changed.length +
    moved.reduce((sum, { ends }) => sum + Math.min(2, ends.length), 0)
  );
}
