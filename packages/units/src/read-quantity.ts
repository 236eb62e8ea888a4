import { timesPowerOfTen } from './decimal.ts';
import { type Dimension, howWritten, isCount, nameOf } from './dimension.ts';
import { readLoneM } from './lone-m.ts';
import { parseNumber } from './parse-number.ts';
import { readUnit, type UnitReading } from './read-unit.ts';
import {
  fixesBySize,
  fixesForUnknownUnit,
  fixesForWrongUnit,
  mayStand,
  type UnitFix,
  writeFix,
} from './unit-fixes.ts';
import { SPEED_OF_LIGHT } from './unit-table.ts';

/** What can be wrong with a quantity's unit. */
export type UnitFault = 'missing-unit' | 'wrong-unit' | 'ambiguous-unit' | 'unknown-unit';

/** A quantity as understood, or what is wrong with it and how it is likely meant. */
export type QuantityReading =
  | {
      readonly ok: true;
      /**
       * In SI: volts, amperes, ohms, farads, henries, hertz, meters, watts, coulombs (an Ah is
       * 3600); a percentage as a fraction; counts, ratios and plain numbers as they stand.
       */
      readonly value: number;
      readonly dimension: Dimension;
      /** As the author wrote it; '' if none. */
      readonly unit: string;
    }
  | {
      readonly ok: false;
      readonly fault: UnitFault;
      readonly message: string;
      /** Likeliest first; empty when nothing likely can be said. */
      readonly fixes: readonly UnitFix[];
    };

/** A quantity as written, its number understood. */
interface Written {
  /** The number's text, short enough to show. */
  readonly number: string;
  readonly value: number;
  /** The author's unit text; '' if none. */
  readonly unit: string;
  readonly expected: readonly Dimension[];
}

/**
 * Reads a quantity where one of `expected` is wanted.
 *
 * A frequency may be written in meters and a wavelength in kilocycles; each is converted by
 * c = 299,792,458 m/s (exact, SI), so kc = 299,792.458 / meters. `cm` is 1.1126 pF where a
 * capacity is expected. Turns, plates, ratios and plain numbers need no unit.
 *
 * A number text that cannot be read, or a size beyond the range of numbers, is reported as
 * `unknown-unit` or `wrong-unit` with no fixes, there being no fault of its own for it.
 *
 * @param numberText as printed: `.00025`, `2 3/4`, `-4.5`; with its unit glued on (`2meg`) it is
 * split here when `unitText` is absent.
 * @param unitText as printed, or undefined or blank for none.
 * @param expected what may stand here; of several, the earlier wins where a unit fits two.
 */
export function readQuantity(
  numberText: string,
  unitText: string | undefined,
  expected: Dimension | readonly Dimension[],
): QuantityReading {
  const wanted = typeof expected === 'string' ? [expected] : expected;
  const unit = (unitText ?? '').trim();
  const value = parseNumber(numberText);
  if (value !== undefined) {
    return readWritten({ number: shown(numberText), value, unit, expected: wanted });
  }
  const glued = unit === '' ? splitGlued(numberText) : undefined;
  if (glued === undefined) {
    return fault('unknown-unit', `"${shown(numberText)}" is not a number.`, []);
  }
  const result = readWritten({ ...glued, expected: wanted });
  if (result.ok) return result;
  // The unit sits in the number's text, so every fix has to replace that text too.
  return { ...result, fixes: result.fixes.map((fix) => ({ number: glued.number, ...fix })) };
}

function readWritten(written: Written): QuantityReading {
  if (written.unit === '') return readBare(written);
  if (readLoneM(written.unit) !== undefined) return readWithLoneM(written);
  const unit = readAmongExpected(written.unit, written.expected);
  if (unit === undefined) return unknownUnit(written);
  return readWithUnit(written, unit);
}

function readBare(written: Written): QuantityReading {
  const { expected, value, number } = written;
  const plain = expected.find((dimension) => dimension === 'number' || dimension === 'ratio');
  const count = expected.every(isCount) ? expected[0] : undefined;
  const dimension = plain ?? count;
  if (dimension !== undefined) return { ok: true, value, dimension, unit: '' };
  const message = `${number} has no unit; ${howWritten(expected)}.`;
  return fault('missing-unit', message, fixes(written, fixesBySize(expected, value)));
}

/** M is meters where a wave or a length is asked for, and open where a resistance is. */
function readWithLoneM(written: Written): QuantityReading {
  const { number, value, unit, expected } = written;
  const sort = readLoneM(unit);
  const isBareLetter = /^m\.?$/i.test(unit);
  const mayBeOhms = expected.includes('resistance');
  const meters = readUnit('m');
  if (isBareLetter && meters !== undefined) {
    const mayBeMeters = expected.some((dimension) => mayStand(meters, dimension));
    const isMeters = unit.startsWith('m') ? mayBeMeters || !mayBeOhms : mayBeMeters && !mayBeOhms;
    if (isMeters) return readWithUnit(written, meters);
  }
  if (mayBeOhms && sort === 'million-or-thousandth') {
    const ohms = timesPowerOfTen(value, -3);
    const inOhms = /e/.test(String(ohms)) ? [] : [writeFix(number, 'ohms', String(ohms))];
    const message =
      `${number} ${shown(unit)} may be millions or thousandths of an ohm; ` +
      'write megohms or ohms in full.';
    return fault('ambiguous-unit', message, [writeFix(number, 'megohms'), ...inOhms]);
  }
  if (mayBeOhms) {
    const message =
      `${number} ${shown(unit)} may be thousands or millions of ohms; ` +
      'the M of the 1920s meant either, so write kilohms or megohms.';
    return fault('ambiguous-unit', message, fixes(written, ['kilohms', 'megohms']));
  }
  if (isBareLetter) return unknownUnit(written);
  const message = `${number} ${shown(unit)} is ${nameOf('resistance')}; ${howWritten(expected)}.`;
  return fault('wrong-unit', message, fixes(written, fixesBySize(expected, value)));
}

/** The reading that fits what is expected, else the unit's usual one. */
function readAmongExpected(text: string, expected: readonly Dimension[]): UnitReading | undefined {
  for (const dimension of expected) {
    const unit = readUnit(text, dimension);
    if (unit !== undefined && mayStand(unit, dimension)) return unit;
  }
  return readUnit(text);
}

function readWithUnit(written: Written, unit: UnitReading): QuantityReading {
  const { number, value, expected } = written;
  const size = toSI(value, unit.factor);
  if (!Number.isFinite(size)) {
    return fault('wrong-unit', `${number} ${shown(written.unit)} is beyond any size.`, []);
  }
  const direct = expected.find(
    (dimension) =>
      dimension === unit.dimension || (dimension === 'wavelength' && unit.unit === 'meters'),
  );
  if (direct !== undefined) return { ok: true, value: size, dimension: direct, unit: written.unit };
  const wave = expected.find((dimension) => mayStand(unit, dimension));
  if (wave === 'frequency' || wave === 'wavelength') return convertWave(written, size, wave);
  return wrongUnit(written, unit);
}

/** Meters to hertz or hertz to meters: the same division serves both ways. */
function convertWave(
  written: Written,
  size: number,
  dimension: 'frequency' | 'wavelength',
): QuantityReading {
  const value = SPEED_OF_LIGHT / size;
  if (size > 0 && Number.isFinite(value)) {
    return { ok: true, value, dimension, unit: written.unit };
  }
  const message = `${written.number} ${shown(written.unit)} has no ${dimension}.`;
  return fault('wrong-unit', message, []);
}

function wrongUnit(written: Written, unit: UnitReading): QuantityReading {
  const { number, value, expected } = written;
  const message = `${number} ${shown(written.unit)} is ${nameOf(unit.dimension)}; ${howWritten(expected)}.`;
  const units = fixesForWrongUnit(expected, value, written.unit);
  return fault('wrong-unit', message, fixes(written, units));
}

function unknownUnit(written: Written): QuantityReading {
  const { value, expected } = written;
  const message = `"${shown(written.unit)}" is not a unit; ${howWritten(expected)}.`;
  const units = fixesForUnknownUnit(expected, value, written.unit);
  return fault('unknown-unit', message, fixes(written, units));
}

/** Powers of ten go through the decimal text, so that equal sizes read equal. */
function toSI(value: number, factor: number): number {
  const power = Math.round(Math.log10(factor));
  return Number(`1e${power}`) === factor ? timesPowerOfTen(value, power) : value * factor;
}

/** `2meg`, `4.5V`: a number with its unit written against it. */
function splitGlued(
  text: string,
): { readonly number: string; readonly value: number; readonly unit: string } | undefined {
  if (text.length > 80) return undefined;
  const parts = /^\s*([^\p{L}%]*?)\s*([\p{L}%].*?)\s*$/u.exec(text);
  const number = parts?.[1] ?? '';
  const value = parseNumber(number);
  return value === undefined ? undefined : { number, value, unit: parts?.[2] ?? '' };
}

function fixes(written: Written, units: readonly string[]): readonly UnitFix[] {
  return units.map((unit) => writeFix(written.number, unit));
}

function fault(kind: UnitFault, message: string, unitFixes: readonly UnitFix[]): QuantityReading {
  return { ok: false, fault: kind, message, fixes: unitFixes };
}

/** The author's text on one line and short enough for a sentence. */
function shown(text: string): string {
  const line = text.slice(0, 200).replace(/\s+/g, ' ').trim();
  const letters = Array.from(line);
  return letters.length > 40 ? `${letters.slice(0, 39).join('')}…` : line;
}
