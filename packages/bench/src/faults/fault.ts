import type { Circuit, Part } from '@setwright/circuit';
import type { Edit } from '../edits/edit.ts';

/** What may be heard of a set, as the language has it. */
export type Symptom =
  | 'silent'
  | 'faint'
  | 'weak'
  | 'broad'
  | 'squeals at short waves'
  | 'squeals all over'
  | 'putters'
  | 'hums'
  | 'distorts loud'
  | 'distorts all'
  | 'crackles'
  | 'chokes on strong'
  | 'one dial dead'
  | 'no regeneration'
  | 'microphonic'
  | 'comes and goes';

/** How common a fault is in a set of this age found unrestored. */
export type Prior = 'very common' | 'common' | 'rare';

/** As numbers, against one another. Common practice, and no statistics. */
export const weights: Readonly<Record<Prior, number>> = {
  'very common': 10,
  common: 3,
  rare: 1,
};

/** A fault as its row of the catalogue words it, for one part. */
export interface FaultSaid {
  /** In a sentence of its own: `T1.primary is open`. */
  readonly words: string;
  readonly edits: readonly Edit[];
  readonly prior: Prior;
  /** What is heard of it that no current or signal tells. */
  readonly heard?: readonly Symptom[];
  /** What a restorer should know of it besides. */
  readonly note?: string;
}

/** One row of the catalogue: a way in which parts go wrong. */
export interface CatalogueRow {
  /** The name of the fault: `open-winding`. */
  readonly kind: string;
  /** Where its figures and its commonness come from. */
  readonly source: string;
  /** What it does to a part; nothing for parts that it does not happen to. */
  happensTo(part: Part, circuit: Circuit): readonly FaultSaid[];
}

/** A single fault that a part of a set may have. */
export interface Fault extends Omit<FaultSaid, 'prior'> {
  /** As a `suppose` says it, one for each fault of a set: `open T1.primary`. */
  readonly id: string;
  readonly kind: string;
  readonly part: string;
  /** How common it is; undefined for what a text supposes. */
  readonly prior: Prior | undefined;
  /** The prior as a number, against those of the other faults; 0 for what a text supposes. */
  readonly weight: number;
  readonly source: string;
  readonly heard: readonly Symptom[];
}

export const PRACTICE = 'common practice';
