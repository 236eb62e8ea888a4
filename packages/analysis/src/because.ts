import type { Place, Value } from '@setwright/circuit';

/** One thing that the text says and that a number was made from. */
export interface Fact {
  readonly place: Place;
  /** As the author wrote it. */
  readonly text: string;
  /** What it is: `turns of L1.grid`. */
  readonly meaning: string;
}

/** Where a number comes from. */
export interface Because {
  /** The rule or formula, in words. */
  readonly formula: string;
  readonly facts: readonly Fact[];
  /** What was taken because the text does not say it, each a sentence part. */
  readonly assumed: readonly string[];
  /** The published source of the formula, or `common practice`. */
  readonly source: string;
  /** How far out the number may be, as a share of it; left out where nothing is known of that. */
  readonly relativeError?: number;
}

/** A number that is known, with its because, or what the text would have to say to know it. */
export type Reckoned =
  | { readonly value: number; readonly because: Because }
  | { readonly value: undefined; readonly missing: readonly string[] };

/** A number that cannot be known until the text says what is missing. */
export function unknown(...missing: readonly string[]): Reckoned {
  return { value: undefined, missing };
}

/** What stands in the way of a number; nothing for one that is known. */
export function missingOf(reckoned: Reckoned): readonly string[] {
  return reckoned.value === undefined ? reckoned.missing : [];
}

/** A written quantity as a fact. */
export function factOf(value: Value, meaning: string): Fact {
  return { place: value.place, text: value.text, meaning };
}

/** A value that the text states outright; its tolerance, where said, is its error. */
export function stated(value: Value, meaning: string, tolerance?: Value): Reckoned {
  const facts = [factOf(value, meaning), ...(tolerance ? [factOf(tolerance, 'tolerance')] : [])];
  return {
    value: value.value,
    because: {
      formula: 'as stated',
      facts,
      assumed: [],
      source: 'the text',
      ...(tolerance ? { relativeError: tolerance.value } : {}),
    },
  };
}

/** A number with its because, or unknown where the arithmetic gave none. */
export function reckoned(
  value: number | undefined,
  because: Because,
  otherwise: readonly string[],
): Reckoned {
  return value !== undefined && Number.isFinite(value)
    ? { value, because }
    : unknown(...otherwise);
}
