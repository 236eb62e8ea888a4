import type { Dimension } from './dimension.ts';
import { likelyUnits } from './likely-units.ts';
import { nearest } from './nearest.ts';
import { readUnit } from './read-unit.ts';
import { spellingKey } from './spelling-key.ts';
import { UNITS } from './unit-table.ts';

/** One way to write the quantity so that it reads. */
export interface UnitFix {
  /** For a menu: `Write .00025 mfd`. */
  readonly title: string;
  /** Replacement unit text; '' takes the unit away. */
  readonly unit: string;
  /** Replacement number text, when it must change as well. */
  readonly number?: string;
}

/** Makes a fix. `number` is given only when the number's own text must change. */
export function writeFix(shownNumber: string, unit: string, number?: string): UnitFix {
  const shown = number ?? shownNumber;
  const title = unit === '' ? `Write ${shown} without a unit` : `Write ${shown} ${unit}`;
  return number === undefined ? { title, unit } : { title, unit, number };
}

/**
 * Slips of the pen whose meaning is plain once the dimension is known (common practice). Maps, as
 * a plain record would find `constructor` and the like in what an author typed.
 */
const SLIPS: Readonly<Partial<Record<Dimension, ReadonlyMap<string, string>>>> = {
  voltage: new Map([['m', 'mV']]),
  current: new Map([
    ['m', 'mA'],
    ['mil', 'mA'],
    ['mils', 'mA'],
    ['ah', 'A'],
  ]),
  capacitance: new Map([
    ['mm', 'mmfd'],
    ['uu', 'mmfd'],
    ['u', 'mfd'],
    ['n', 'nF'],
    ['p', 'mmfd'],
    ['mh', 'mfd'],
  ]),
  inductance: new Map([
    ['m', 'mH'],
    ['u', 'uH'],
    ['mf', 'mH'],
    ['uf', 'uH'],
  ]),
  frequency: new Map([
    ['k', 'kc'],
    ['meg', 'Mc'],
  ]),
  wavelength: new Map([
    ['k', 'kc'],
    ['meg', 'Mc'],
  ]),
  charge: new Map([
    ['a', 'Ah'],
    ['amp', 'Ah'],
    ['amps', 'Ah'],
  ]),
  power: new Map([['m', 'mW']]),
};

function slips(expected: readonly Dimension[], key: string): readonly string[] {
  return expected.flatMap((dimension) => SLIPS[dimension]?.get(key) ?? []);
}

/** Units for a number that has none, or one that cannot be meant, likeliest first. */
export function fixesBySize(expected: readonly Dimension[], value: number): readonly string[] {
  return distinct(expected.flatMap((dimension) => likelyUnits(dimension, value)));
}

/** Units for a unit of the wrong dimension: a known slip, else by the number's size. */
export function fixesForWrongUnit(
  expected: readonly Dimension[],
  value: number,
  unitText: string,
): readonly string[] {
  const key = spellingKey(unitText);
  const known = slips(expected, key);
  return known.length > 0 ? distinct(known) : fixesBySize(expected, value);
}

/** Units for an unknown spelling: a known slip, the nearest spelling, else by the number's size. */
export function fixesForUnknownUnit(
  expected: readonly Dimension[],
  value: number,
  unitText: string,
): readonly string[] {
  const key = spellingKey(unitText);
  const known = slips(expected, key);
  if (known.length > 0) return distinct(known);
  const spellings = UNITS.filter((unit) =>
    expected.some((dimension) => mayStand(unit, dimension)),
  ).flatMap((unit) => unit.spellings.filter((spelling) => spelling.length > 1));
  const close = nearest(key, spellings).map((spelling) => asTyped(spelling));
  return close.length > 0 ? distinct(close) : fixesBySize(expected, value);
}

/**
 * True where a unit may stand. Meters tell a frequency and kilocycles a wavelength, so each serves
 * for both; feet or centimeters of wave are a mistake.
 */
export function mayStand(
  unit: { readonly unit: string; readonly dimension: Dimension },
  expected: Dimension,
): boolean {
  if (expected === 'frequency' || expected === 'wavelength') {
    return unit.dimension === 'frequency' || unit.unit === 'meters';
  }
  return unit.dimension === expected;
}

/** The canonical spelling as one types it, with u for the micro sign. */
function asTyped(spelling: string): string {
  return (readUnit(spelling)?.unit ?? spelling).replaceAll('µ', 'u');
}

function distinct(units: readonly string[]): readonly string[] {
  return [...new Set(units)].slice(0, 4);
}
