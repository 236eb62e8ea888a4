import type { Dimension } from './dimension.ts';
import { readLoneM } from './lone-m.ts';
import { spellingKey } from './spelling-key.ts';
import { CAPACITY_CENTIMETER, unitOfKey } from './unit-table.ts';

/** A unit as understood. */
export interface UnitReading {
  /** Canonical spelling: `mfd`, `kilohms`, `µH`, `kc` … */
  readonly unit: string;
  readonly dimension: Dimension;
  /**
   * Multiplies a number in this unit into SI: volts, amperes, ohms, farads, henries, hertz,
   * meters, watts, coulombs (an Ah is 3600). Percent becomes a fraction: 0.01.
   */
  readonly factor: number;
}

/**
 * Reads a unit in any spelling and any case that leaves no doubt: `mfd`, `MFD`, `M.F.D.`, `µF`,
 * `k ohms`, `kΩ`, `meg`, `Kc`, `in.`, `%`.
 *
 * @param text the unit alone, without its number.
 * @param expected the dimension wanted, for the one unit that has two: `cm` is a length, but
 * where a capacity is expected the electrostatic unit of 1.1126 pF.
 * @returns undefined for an unknown unit and for an M that may be a thousand or a million
 * (`M`, `M ohms`). A small `m` is meters.
 */
export function readUnit(text: string, expected?: Dimension): UnitReading | undefined {
  if (!/^m\.?$/.test(text.trim()) && readLoneM(text) !== undefined) return undefined;
  const key = spellingKey(text);
  if (expected === 'capacitance' && CAPACITY_CENTIMETER.spellings.includes(key)) {
    return reading(CAPACITY_CENTIMETER);
  }
  const row = unitOfKey(key);
  return row === undefined ? undefined : reading(row);
}

function reading(row: UnitReading): UnitReading {
  return { unit: row.unit, dimension: row.dimension, factor: row.factor };
}
