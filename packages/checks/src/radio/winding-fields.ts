import type { CoilMatrix } from '@setwright/analysis';
import type { Part } from '@setwright/circuit';
import { fractionAt } from './radio-wiring.ts';

/** A stretch of a winding, passed from one of its terminals to another. */
export interface Stretch {
  readonly winding: Part;
  readonly from: string;
  readonly to: string;
}

/**
 * Henries between two stretches of a coil's windings: positive where current passing the one from
 * `from` to `to` induces in the other what its own current passing that way would. The same stretch
 * twice gives its inductance. Undefined where the text does not tell enough.
 */
export function fieldBetween(
  coil: CoilMatrix | undefined,
  one: Stretch,
  other: Stretch,
): number | undefined {
  if (!coil) return undefined;
  const first = sectionsOf(coil, one);
  const second = sectionsOf(coil, other);
  if (!first || !second) return undefined;
  let sum = 0;
  for (const row of first.indices) {
    for (const column of second.indices) {
      const henries = coil.entries[row]?.[column];
      if (henries === undefined) return undefined;
      sum += henries;
    }
  }
  return Number.isFinite(sum) ? first.sign * second.sign * sum : undefined;
}

function sectionsOf(
  coil: CoilMatrix,
  { winding, from, to }: Stretch,
): { readonly indices: readonly number[]; readonly sign: number } | undefined {
  const a = fractionAt(winding, from);
  const b = fractionAt(winding, to);
  if (a === undefined || b === undefined || a === b) return undefined;
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const indices = coil.sections.flatMap((section, index) =>
    section.winding === winding.name && section.low >= low && section.high <= high ? [index] : [],
  );
  return indices.length > 0 ? { indices, sign: b > a ? 1 : -1 } : undefined;
}
