import type { Place } from '@setwright/circuit';
import type {
  FactStatement,
  MeantStatement,
  PartStatement,
  TitledStatement,
  WireStatement,
} from '../generated/ast.ts';
import type { Said } from './said.ts';

export interface SaidStage {
  readonly name: string;
  readonly title: string | undefined;
  readonly roles: readonly string[];
  readonly place: Place;
  readonly namePlace: Place;
  parts: string[];
}

export type BenchOrSuppose = TitledStatement;

/** All that a receiver's block says, by kind. */
export interface Collected {
  parts: Said[];
  readonly named: Map<string, Said>;
  readonly stages: SaidStage[];
  readonly wires: {
    readonly node: WireStatement;
    readonly stage: string | undefined;
    /** Whether only the beginning of its line could be read. */
    readonly unread: boolean;
  }[];
  readonly gangs: PartStatement[];
  readonly dials: PartStatement[];
  readonly meants: {
    readonly node: MeantStatement;
    readonly within: SaidStage | Said | undefined;
  }[];
  readonly titled: BenchOrSuppose[];
  readonly facts: FactStatement[];
  /** Parts whose names an earlier one has. */
  readonly duplicates: { readonly said: Said; readonly earlier: Said }[];
}

export function emptyCollection(): Collected {
  return {
    parts: [],
    named: new Map(),
    stages: [],
    wires: [],
    gangs: [],
    dials: [],
    meants: [],
    titled: [],
    facts: [],
    duplicates: [],
  };
}
