import type { Because, Fact, Reckoned, ValueBecause } from '@setwright/analysis';
import { formatQuantity } from '@setwright/units';
import { type Quantity, quantities, quantityText, type UnitStyle } from './quantities.ts';

/** Why a number is what it is, for people. */
export interface Reason {
  /** The rule or formula. */
  readonly formula: string;
  /** What it was reckoned from: `turns of L1.grid: 56 turns`. */
  readonly from: readonly string[];
  /** What was taken because the text does not say it. */
  readonly taking: readonly string[];
  readonly source: string | undefined;
  /** How far out the number may be, as a share of it. */
  readonly error: number | undefined;
}

/** The reason of a value of a part, which names its facts as they were written. */
export function reasonOf(because: ValueBecause): Reason {
  return {
    formula: because.formula,
    from: distinct(because.facts.map(({ meaning, text }) => `${meaning}: ${text}`)),
    taking: distinct(because.assumed),
    source: published(because.source),
    error: because.relativeError,
  };
}

/** What was published, of sources some of which are the text itself. */
function published(source: string): string | undefined {
  const all = source.split('; ').filter((each) => each !== 'the text');
  return all.length > 0 && source !== '' ? all.join('; ') : undefined;
}

/** The reason of a volt or an ampere at work; `taking` is what was taken for the part. */
export function reasonAtWork(
  because: Because,
  style: UnitStyle,
  taking: readonly string[] = [],
): Reason {
  return {
    formula: because.formula,
    from: distinct(because.facts.map((fact) => factInWords(fact, style))),
    taking,
    source: because.source,
    error: undefined,
  };
}

/**
 * The reason of a number that follows from another one of the same part, whose own reason is told
 * there: `from inductance: 232 µH`.
 */
export function reasonFrom(
  formula: string,
  quantity: Quantity,
  reckoned: Reckoned,
  style: UnitStyle,
): Reason {
  if (reckoned.value === undefined) return plainReason(formula);
  return {
    ...plainReason(formula),
    from: [`${quantities[quantity].words}: ${quantityText(quantity, reckoned.value, style)}`],
    error: reckoned.because.relativeError,
  };
}

/** A reason that rests on nothing but its words. */
export function plainReason(formula: string, taking: readonly string[] = []): Reason {
  return { formula, from: [], taking, source: undefined, error: undefined };
}

/** A reason in one line. */
export function reasonInLine(reason: Reason): string {
  return [reason.formula, ...groundsOf(reason)].join('; ');
}

/** What a reason rests on besides its formula, clause by clause. */
export function groundsOf({ from, taking, source, error }: Reason): readonly string[] {
  return [
    ...(from.length > 0 ? [`from ${from.join(', ')}`] : []),
    ...(taking.length > 0 ? [`taking ${taking.join(', ')}`] : []),
    ...(error === undefined ? [] : [`good to ${formatQuantity(error, 'percent')}`]),
    ...(source === undefined ? [] : [`source: ${source}`]),
  ];
}

function factInWords({ what, value, dimension }: Fact, style: UnitStyle): string {
  // A count of points is told as a person would say it.
  if (dimension === 'number') return `${formatQuantity(value, 'number')} published ${what}`;
  return `${what}: ${formatQuantity(value, dimension, style)}`;
}

function distinct(words: readonly string[]): string[] {
  return [...new Set(words)];
}
