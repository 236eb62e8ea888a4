import type { Place, Range, Value } from '@setwright/circuit';
import { type Dimension, readQuantity, readUnit } from '@setwright/units';
import { isWordDetail, type Quantity } from '../generated/ast.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing } from './context.ts';
import type { AnyDetail } from './said.ts';

const whyUnits = 'Without its unit a number can be a thousand or a million times out.';

/** What else is known of a quantity. */
export interface QuantityBesides {
  /** True where millions of ohms are out of the question, and so not offered. */
  readonly lowOhms?: boolean;
  /** Lends its unit to a number without one, as in `14 to 365 mmfd`. */
  readonly unitFrom?: Quantity | undefined;
  /** A unit of two words, as in `100 k ohms`, and where it ends. */
  readonly split?: SplitUnit | undefined;
}

export interface SplitUnit {
  readonly unit: string;
  readonly end: number;
}

/**
 * Reads a quantity where one of `expected` is wanted; what is wrong with it becomes a remark.
 */
export function readValue(
  cx: Lowering,
  quantity: Quantity | undefined,
  expected: Dimension | readonly Dimension[],
  what: string,
  { unitFrom, split, lowOhms }: QuantityBesides = {},
): Value | undefined {
  if (!quantity?.number) return undefined;
  const own = placeOf(cx, quantity);
  const place = split ? { ...own, end: split.end } : own;
  const unit = split?.unit ?? quantity.unit ?? unitFrom?.unit;
  const reading = readQuantity(quantity.number, unit, expected);
  if (reading.ok) {
    return {
      value: reading.value,
      dimension: reading.dimension,
      text: cx.text.slice(place.start, place.end),
      place,
    };
  }
  const check = reading.fault === 'unknown-unit' ? 'wrong-unit' : reading.fault;
  const sensible = reading.fixes.filter((fix) => !lowOhms || fix.unit !== 'megohms');
  const offered = sensible.length > 0 ? sensible : reading.fixes;
  const written = offered.map((fix) => `${fix.number ?? quantity.number} ${fix.unit}`.trim());
  remark(
    cx,
    check,
    'error',
    place,
    {
      message: `${what}: ${reading.message}`,
      why: whyUnits,
      cure: written[0]
        ? `Write ${written.join(' or ')}.`
        : 'Write the number and its unit as they are printed on the part.',
    },
    {
      fixes: offered.map((fix, index) => replacing(fix.title, place, written[index] ?? '')),
    },
  );
  return undefined;
}

/**
 * Reads the two ends of a range, lower first. The upper lends its unit to the lower; a range with
 * no unit at all is one slip, told once.
 */
export function readRangeValues(
  cx: Lowering,
  low: Quantity,
  high: Quantity,
  expected: Dimension,
  what: string,
): Range | undefined {
  if (low.unit === undefined && high.unit === undefined) {
    const reading = readQuantity(high.number, undefined, expected);
    if (!reading.ok && reading.fault === 'missing-unit') {
      const end = placeOf(cx, high);
      const place: Place = { ...placeOf(cx, low), end: end.end };
      const written = `${low.number} to ${high.number}`;
      const units = reading.fixes.map((fix) => fix.unit);
      remark(
        cx,
        'missing-unit',
        'error',
        place,
        {
          message: `${what}: ${reading.message.replace(high.number, written)}`,
          why: whyUnits,
          cure: `Write ${units.map((unit) => `${written} ${unit}`).join(' or ')}.`,
        },
        {
          fixes: units.map((unit) =>
            replacing(`Write ${written} ${unit}`, place, `${written} ${unit}`),
          ),
        },
      );
      return undefined;
    }
  }
  const from = readValue(cx, low, expected, what, { unitFrom: high });
  const to = readValue(cx, high, expected, what);
  if (!from || !to) return undefined;
  return from.value <= to.value ? { low: from, high: to } : { low: to, high: from };
}

/**
 * The unit of the quantity at the end of a detail when it goes on in the next word, as in
 * `100 k ohms`, `.5 M ohms`, `60 ampere hours`.
 */
export function splitUnit(
  cx: Lowering,
  quantity: Quantity | undefined,
  next: AnyDetail | undefined,
): SplitUnit | undefined {
  if (quantity?.unit === undefined || !isWordDetail(next)) return undefined;
  const word = next.words[0];
  if (word === undefined) return undefined;
  const unit = `${quantity.unit} ${word}`;
  const isUnit =
    readUnit(unit) !== undefined ||
    // An M before the word ohms stands for a thousand or a million: that is for its own finding.
    (/^m$/i.test(quantity.unit) && /^(ohms?|\u03a9|\u2126)$/i.test(word));
  return isUnit ? { unit, end: placeOfProperty(cx, next, 'words').end } : undefined;
}

/** The dimension that a quantity's unit plainly has, whatever is expected. */
export function plainDimension(quantity: Quantity): Dimension | undefined {
  return quantity.unit === undefined ? undefined : readUnit(quantity.unit)?.dimension;
}
