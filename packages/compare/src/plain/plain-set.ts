import type { PartKindName } from '@setwright/circuit';
import type { Facts } from './phrase.ts';

/** What a set is made of, besides its parts. */
export type ThingKind =
  | PartKindName
  | 'receiver'
  | 'stage'
  | 'gang'
  | 'dial'
  | 'bench'
  | 'suppose'
  | 'tube type';

/** A part, or anything else with a name of its own, with all that the text says of it. */
export interface Thing {
  /** Unique in the set: a part's name; others with their kind before it, as `stage:DET`. */
  readonly id: string;
  readonly kind: ThingKind;
  /** The coil or transformer that a winding belongs to. */
  readonly owner?: string;
  /** Its terminals by full name. */
  readonly ends: readonly string[];
  readonly facts: Facts;
}

/**
 * A set without places, order and junction numbers: two texts that say the same of a set give the
 * same. Plain data, fit for JSON.
 */
export interface PlainSet {
  readonly things: readonly Thing[];
  /** Terminals that are joined; those joined to nothing are left out. */
  readonly junctions: readonly (readonly string[])[];
}

/** The id of the set's own facts: title, year, band, notes. */
export const wholeSet = 'receiver:';

/** A thing's name as a person calls it, from its id. */
export function calledBy(id: string): string {
  return /^(?:stage|gang|dial|bench|suppose|type):(.*)$/s.exec(id)?.[1] ?? id;
}
