import type { PartKindName, Place, TubeType } from '@setwright/circuit';
import type {
  Detail,
  PartStatement,
  PlaceWord,
  Statement,
  TubeStatement,
  WireStatement,
} from '../generated/ast.ts';
import type { Lowering } from './context.ts';

export type AnyDetail = Detail | PlaceWord;

/** A detail, and whether it comes from the part that this one is made like. */
export interface SaidDetail {
  readonly detail: AnyDetail;
  readonly inherited: boolean;
  /** The text that it stands in, where it comes from a pattern; what is wrong is told of there. */
  readonly text?: Lowering;
}

/** A part as the text says it, before its ends are joined. */
export interface Said {
  readonly name: string;
  /** The name as written: of a winding without its coil's. */
  readonly ownName: string;
  readonly kind: PartKindName;
  readonly title: string | undefined;
  readonly owner: Said | undefined;
  readonly stage: string | undefined;
  readonly node: PartStatement | TubeStatement | WireStatement;
  readonly place: Place;
  readonly namePlace: Place;
  details: readonly SaidDetail[];
  readonly children: readonly Statement[];
  readonly unread: boolean;
  /** Names of its ends, filled as its line and block are read. */
  ends: string[];
  /** Windings, for coils and transformers. */
  readonly windings: Said[];
  typeName: string | undefined;
  tubeType: TubeType | undefined;
  /** Ends that its own statement joins to something. */
  readonly spoken: Set<string>;
  /** The part that it is made like, and where its line names it. */
  like?: { readonly place: Place; readonly said: Said };
  /** Of a pattern: the text it stands in. What is wrong with it is told of there, once. */
  text?: Lowering;
}
