import type { Finding, Severity } from '@setwright/circuit';
import type { Study } from './study.ts';

/** The parts of the documentation a check belongs to. */
export type CheckGroup =
  | 'Reading the text'
  | 'Wiring'
  | 'DC returns'
  | 'Batteries'
  | 'Filaments and controls'
  | 'Radio frequency'
  | 'Audio and ratings'
  | 'The bench'
  | 'Safety';

/** What is to be said of a check that takes long where it is not run. */
export interface Thorough {
  /** What it finds out, as the end of a sentence: `whether a radio stage squeals`. */
  readonly asks: string;
  /** Whether a set has anything for it to examine: quick, whatever the check itself takes. */
  readonly examines: (study: Study) => boolean;
}

/**
 * One check: everything about it in one place. Its page, the text of `setwright explain`, the link
 * on its diagnostic and its tests are made from this.
 */
export interface Check {
  readonly id: string;
  readonly group: CheckGroup;
  /** The severity it speaks with as a rule; a finding may be milder, by the circumstances. */
  readonly severity: Severity;
  /** One line: what it finds. */
  readonly summary: string;
  /** Why it matters to the set. */
  readonly why: string;
  /** When it keeps silent, a sentence each: the good period practice that it must not slander. */
  readonly silent: readonly string[];
  /** Where its rule comes from: a published source, or `common practice`. */
  readonly source: string;
  /** A whole small set that it finds fault with. */
  readonly fails: string;
  /** The same set put right. */
  readonly passes: string;
  /**
   * True when a line that cannot be read could cause its finding (it looks for something missing,
   * or computes from the whole): it then waits until every line can be read.
   */
  readonly needsWholeText: boolean;
  /** It takes long, and is only run when asked for everything. */
  readonly thorough?: Thorough;
  /** Its findings in one set. Pure; never throws. */
  readonly find: (study: Study) => readonly Finding[];
}
