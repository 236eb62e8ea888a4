/** What kind of difference a sentence tells of; a drawing marks parts by it. */
export type SentenceKind = 'removed' | 'added' | 'changed' | 'moved' | 'renamed' | 'said';

/** One difference in words. */
export interface Sentence {
  readonly kind: SentenceKind;
  readonly text: string;
  /** A few words for a drawing: `was 2 meg`; empty where a mark says enough. */
  readonly brief: string;
  /** Names of parts that it is about, as the old set has them. */
  readonly before: readonly string[];
  /** Names of parts that it is about, as the new set has them. */
  readonly after: readonly string[];
}
