import type { Place } from '@setwright/circuit';
import type { Dimension } from '@setwright/units';

/** One fact that a number was reckoned from. */
export interface Fact {
  /** What it is, in words: `V1.grid above B-`, `RH1`. */
  readonly what: string;
  /** In SI units. */
  readonly value: number;
  /** What its number measures. */
  readonly dimension: Dimension;
  /** Where the text says it; undefined for what was reckoned or taken. */
  readonly place: Place | undefined;
}

/** How a number came about. */
export interface Because {
  /** The law in a line: `V(grid) − V(F−)`. */
  readonly formula: string;
  readonly facts: readonly Fact[];
  /** The publication behind the law or its constants; undefined for plain circuit laws. */
  readonly source: string | undefined;
}

/** A number with its reasons. */
export interface Figure {
  /** In SI units. */
  readonly value: number;
  readonly because: Because;
}

/** A figure from what was reckoned and from what; undefined for a number beyond reckoning. */
export function figure(
  value: number,
  formula: string,
  facts: readonly Fact[],
  source?: string,
): Figure | undefined {
  if (!Number.isFinite(value)) return undefined;
  const known = facts.filter((each) => Number.isFinite(each.value));
  return { value, because: { formula, facts: known, source } };
}

/** A fact with or without a place. */
export function fact(what: string, value: number, dimension: Dimension, place?: Place): Fact {
  return { what, value, dimension, place };
}
