import type { PartKindName, Place, TubeType } from '@setwright/circuit';
import type { Said } from './said.ts';

/** A part that stands outside any receiver, for the parts of sets to be made like. */
export interface Pattern {
  readonly name: string;
  readonly kind: PartKindName;
  readonly title: string | undefined;
  /** Its line without its block, in the file that holds it. */
  readonly place: Place;
  readonly namePlace: Place;
  /** It and its windings with what is said of them. */
  readonly said: Said;
}

/** A place in the text that names a pattern. */
export interface PatternUse {
  readonly place: Place;
  readonly pattern: Pattern;
}

/** What a receiver may name that stands outside it. */
export interface Known {
  readonly types: ReadonlyMap<string, TubeType>;
  readonly patterns: ReadonlyMap<string, Pattern>;
  /** Whether a file that may hold more of them cannot be read. */
  readonly isLost: boolean;
}
