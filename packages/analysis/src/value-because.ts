import type { Place, Value } from '@setwright/circuit';

/** One thing that the text says and that a value was made from. */
export interface ValueFact {
  readonly place: Place;
  /** As the author wrote it. */
  readonly text: string;
  /** What it is: `turns of L1.grid`. */
  readonly meaning: string;
}

/** Where the value of a part comes from. */
export interface ValueBecause {
  /** The rule or formula, in words. */
  readonly formula: string;
  readonly facts: readonly ValueFact[];
  /** What was taken because the text does not say it, each a sentence part. */
  readonly assumed: readonly string[];
  /** The published source of the formula, or `common practice`. */
  readonly source: string;
  /** How far out the value may be, as a share of it; left out where nothing is known of that. */
  readonly relativeError?: number;
}

/** A value that is known, with its because, or what the text would have to say to know it. */
export type Reckoned =
  | { readonly value: number; readonly because: ValueBecause }
  | { readonly value: undefined; readonly missing: readonly string[] };

/** A value that cannot be known until the text says what is missing. */
export function unknown(...missing: readonly string[]): Reckoned {
  return { value: undefined, missing: [...new Set(missing)] };
}

/** What stands in the way of a value; nothing for one that is known. */
export function missingOf(reckoned: Reckoned): readonly string[] {
  return reckoned.value === undefined ? reckoned.missing : [];
}

/** A written quantity as a fact. */
export function factOf(value: Value, meaning: string): ValueFact {
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

/** A value with its because, or unknown where the arithmetic gave none. */
export function reckoned(
  value: number | undefined,
  because: ValueBecause,
  otherwise: readonly string[],
): Reckoned {
  return value !== undefined && Number.isFinite(value) ? { value, because } : unknown(...otherwise);
}

/** What several becauses have in common in one: all facts and assumptions, each once. */
export function gathered(from: readonly Reckoned[]): Omit<ValueBecause, 'formula'> {
  const known = from.flatMap((each) => (each.value === undefined ? [] : [each.because]));
  return {
    facts: [...new Set(known.flatMap(({ facts }) => facts))],
    assumed: [...new Set(known.flatMap(({ assumed }) => assumed))],
    source: [...new Set(known.map(({ source }) => source))].join('; '),
  };
}
