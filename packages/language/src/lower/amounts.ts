import type { Value } from '@setwright/circuit';
import { type Dimension, readQuantity, readUnit } from '@setwright/units';
import type { Quantity } from '../generated/ast.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing } from './context.ts';

const whyUnits = 'Without its unit a number can be a thousand or a million times out.';

/**
 * Reads a quantity where one of `expected` is wanted; what is wrong with it becomes a remark.
 * `unitFrom` lends its unit to a number without one, as in `14 to 365 mmfd`.
 */
export function readValue(
  cx: Lowering,
  quantity: Quantity | undefined,
  expected: Dimension | readonly Dimension[],
  what: string,
  unitFrom?: Quantity,
): Value | undefined {
  if (!quantity?.number) return undefined;
  const place = placeOf(cx, quantity);
  const unit = quantity.unit ?? unitFrom?.unit;
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
  remark(
    cx,
    check,
    'error',
    place,
    {
      message: `${what}: ${reading.message}`,
      why: whyUnits,
      cure: reading.fixes[0]
        ? `Write ${reading.fixes.map((fix) => `${fix.number ?? quantity.number} ${fix.unit}`.trim()).join(' or ')}.`
        : 'Write the number and its unit as they are printed on the part.',
    },
    {
      fixes: reading.fixes.map((fix) =>
        replacing(fix.title, place, `${fix.number ?? quantity.number} ${fix.unit}`.trim()),
      ),
    },
  );
  return undefined;
}

/** The dimension that a quantity's unit plainly has, whatever is expected. */
export function plainDimension(quantity: Quantity): Dimension | undefined {
  return quantity.unit === undefined ? undefined : readUnit(quantity.unit)?.dimension;
}

/** Where a quantity's unit stands. */
export function unitPlace(cx: Lowering, quantity: Quantity) {
  return placeOfProperty(cx, quantity, 'unit');
}
