import type { Fix, Place, Value } from '@setwright/circuit';
import { formatQuantity, parseNumber, readQuantity } from '@setwright/units';
import { likeUnits, type Sizes } from './likely-sizes.ts';

/** No more ways than this are offered to read a slip. */
const MOST_FIXES = 3;

/**
 * The ways in which an unlikely value is a slip of the pencil away from a likely one: another unit
 * for the same number, or the point moved by one place. The nearest to what is usual first.
 */
export function slipFixes(value: Value, sizes: Sizes): Fix[] {
  const written = splitText(value.text);
  if (!written) return [];
  const { number, amount, unit } = written;
  const ways: { readonly text: string; readonly size: number }[] = [];
  const tryOut = (text: string, otherUnit: string) => {
    const reading = readQuantity(text, otherUnit, value.dimension);
    if (!reading.ok || reading.value < sizes.low || reading.value > sizes.high) return;
    ways.push({ text: `${text} ${otherUnit}`.trim(), size: reading.value });
  };
  if (unit !== '') {
    for (const other of likeUnits[value.dimension] ?? []) {
      const same = readQuantity(number, other, value.dimension);
      if (same.ok && same.value !== value.value) tryOut(number, other);
    }
  }
  for (const moved of movedPoint(number, amount)) tryOut(moved, unit);
  return ways.slice(0, MOST_FIXES).map(({ text }) => ({
    title: `Write ${text}`,
    edits: [{ place: value.place, text }],
  }));
}

function splitText(text: string) {
  const [, number = '', unit = ''] = /^\s*([-+\u2212]?[0-9 ./]*[0-9])\s*(.*?)\s*$/.exec(text) ?? [];
  const amount = parseNumber(number);
  return amount === undefined || amount === 0 ? undefined : { number, amount, unit };
}

/** The number with one zero more or less: ten times and a tenth of it, written as it was. */
function movedPoint(number: string, amount: number): string[] {
  if (number.includes('/')) return [];
  const plain = (value: number) => {
    const text = formatQuantity(value, 'number', 'period', 9);
    // Period lists leave the zero before the point out; so does who left it out himself.
    return number.trimStart().startsWith('.') ? text.replace(/^(-?)0\./, '$1.') : text;
  };
  return [plain(amount / 10), plain(amount * 10)].filter((text) => parseNumber(text) !== 0);
}

/** A band that is likely written in the other unit. */
export interface BandSlip {
  readonly message: string;
  readonly written: string;
  readonly place: Place;
}

/** What the broadcast band is in meters, and in kilocycles, a little widened. Common practice. */
const broadcastMeters = { low: 180, high: 620 };
const broadcastKilocycles = { low: 480, high: 1700 };

/**
 * Whether a band looks like the broadcast band with its numbers in the other unit: 200 to 545 kc
 * are the meters of 1924, 550 to 1500 meters the kilocycles.
 */
export function likelySlips(low: Value, high: Value): BandSlip | undefined {
  const [first, last] = low.place.start <= high.place.start ? [low, high] : [high, low];
  const from = splitText(first.text);
  const to = splitText(last.text);
  if (!from || !to || first === last) return undefined;
  const units = { from: unitOf(from.unit || to.unit), to: unitOf(to.unit) };
  if (!units.from || !units.to) return undefined;
  const place = { ...first.place, end: last.place.end };
  const numbers = [from.amount, to.amount].sort((a, b) => a - b) as [number, number];
  const plain = `${from.number} to ${to.number}`;
  if (units.from !== units.to) {
    const unit = numbers[1] > 700 ? 'kc' : 'meters';
    return {
      message: `The band runs from ${first.text} to ${last.text}, in two units that run opposite ways.`,
      written: `${plain} ${unit}`,
      place,
    };
  }
  const within = ({ low: least, high: most }: Sizes) =>
    numbers[0] >= least && numbers[1] <= most && numbers[1] / numbers[0] > 1.8;
  if (units.to === 'kc' && within(broadcastMeters))
    return {
      message: `A band of ${plain} kc is below the broadcast band; ${plain} meters is the broadcast band.`,
      written: `${plain} meters`,
      place,
    };
  if (units.to === 'meters' && within(broadcastKilocycles) && numbers[0] > 500)
    return {
      message: `A band of ${plain} meters is above the broadcast band; ${plain} kc is the broadcast band.`,
      written: `${plain} kc`,
      place,
    };
  return undefined;
}

function unitOf(unit: string): 'kc' | 'meters' | undefined {
  if (/^(m|meters?|metres?)$/i.test(unit)) return 'meters';
  return /^(kc|kcs|k\.?c\.?|khz|kilocycles?)$/i.test(unit) ? 'kc' : undefined;
}
