import type { Circuit } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { responseOf } from '../response/response-of.ts';
import { verdictWords } from '../response/squeal-words.ts';
import { type Quantity, quantityText, type UnitStyle } from '../values/quantities.ts';
import { nameOf } from '../values/report-values.ts';
import type { ValueRow } from '../values/rows.ts';
import { valuesOf } from '../values/values-of.ts';

/** A number that moves from one set to another. */
export interface NumberMoved {
  /** The part, winding, tap or tuned circuit, as the new set calls it. */
  readonly part: string;
  readonly quantity: Quantity;
  /** Hertz at which it holds, where it goes with frequency. */
  readonly at: number | undefined;
  /** What a person calls it: `plate volts`, `gain at 550 kc, to V2`. */
  readonly words: string;
  /** In SI units; undefined where it cannot be reckoned. */
  readonly before: number | undefined;
  readonly after: number | undefined;
  readonly beforeText: string;
  readonly afterText: string;
}

/** What a change does to the numbers of a set. */
export interface NumbersMoved {
  readonly numbers: readonly NumberMoved[];
  /** Whether it squeals, before and after, where that is not the same. */
  readonly stability: { readonly before: string; readonly after: string } | undefined;
}

/** The numbers that a change is judged by; what they follow from is left to `values`. */
const told: ReadonlySet<Quantity> = new Set<Quantity>([
  'lowest-frequency',
  'highest-frequency',
  'bias',
  'plate-voltage',
  'plate-current',
  'screen-voltage',
  'filament-voltage',
  'drain',
  'hours',
  'gain',
]);

/** Less than this share is the rounding of the reckoning; of gains, which are bounds, more. */
const ROUNDING = 2e-3;
const ROUNDING_OF_GAIN = 2e-2;

/**
 * Numbers of two sets beside one another: what the tuned circuits cover, bias, plate and filament
 * volts, drain and hours of the batteries, gain of each stage, and whether the set squeals. Only
 * those that move by more than their rounding, and of parts that both sets have.
 *
 * @param rename old names to new
 */
export function numbersMoved(
  old: Circuit,
  now: Circuit,
  rename: (name: string) => string,
  style: UnitStyle,
): NumbersMoved {
  const before = rowsOf(old, rename, style);
  const after = rowsOf(now, (name) => name, style);
  const numbers: NumberMoved[] = [];
  for (const [key, { row, words }] of after) {
    const was = before.get(key);
    if (!was) continue;
    const moved = movedBetween(was.row, row, words, style);
    if (moved) numbers.push(moved);
  }
  const [one, other] = [verdictOf(old, style), verdictOf(now, style)];
  return {
    numbers,
    stability: one === other ? undefined : { before: one, after: other },
  };
}

interface ToldRow {
  readonly row: ValueRow;
  readonly words: string;
}

function rowsOf(
  circuit: Circuit,
  rename: (name: string) => string,
  style: UnitStyle,
): ReadonlyMap<string, ToldRow> {
  const rows = new Map<string, ToldRow>();
  for (const { part: of, rows: all } of valuesOf(circuit, style).parts) {
    for (const row of all) {
      if (!told.has(row.quantity) || row.isAgain) continue;
      const part = namesIn(row.part, rename);
      const to = row.to === undefined ? '' : namesIn(row.to, rename);
      const at = row.at === undefined ? '' : formatQuantity(row.at, 'frequency');
      const inFull = row.note === undefined || to !== '' ? '' : `, ${row.note}`;
      const towards = row.quantity === 'gain' && to !== '' ? `, to ${to}` : '';
      const words = `${nameOf({ ...row, part: of }, of, style)}${towards || inFull}`;
      const key = JSON.stringify([part, row.quantity, at, to]);
      if (!rows.has(key)) rows.set(key, { row: { ...row, part }, words });
    }
  }
  return rows;
}

/** Every name within the name of a circuit put through `rename`: `L1.grid with C1`. */
function namesIn(text: string, rename: (name: string) => string): string {
  return text.replace(/[^\s,]+/g, (word) => rename(word));
}

function movedBetween(
  was: ValueRow,
  is: ValueRow,
  words: string,
  style: UnitStyle,
): NumberMoved | undefined {
  const { part, quantity, at } = is;
  const [before, after] = [was.value, is.value];
  const textOf = (value: number | undefined) =>
    value === undefined ? 'not known' : quantityText(quantity, value, style);
  const [beforeText, afterText] = [textOf(before), textOf(after)];
  if (beforeText === afterText) return undefined;
  if (before !== undefined && after !== undefined) {
    const largest = Math.max(Math.abs(before), Math.abs(after));
    const rounding = quantity === 'gain' ? ROUNDING_OF_GAIN : ROUNDING;
    if (Math.abs(after - before) <= rounding * largest) return undefined;
  }
  return { part, quantity, at, words, before, after, beforeText, afterText };
}

function verdictOf(circuit: Circuit, style: UnitStyle): string {
  return verdictWords(responseOf(circuit), style);
}
