import type { Figure, Reckoned } from '@setwright/analysis';
import type { Quantity, UnitStyle } from './quantities.ts';
import { type Reason, reasonAtWork, reasonOf } from './reason.ts';

/** One number of a part, or what stands in its way. */
export type ValueRow = {
  /** The part, winding or tuned circuit: `L1.grid`, `V1`, `B+45`. */
  readonly part: string;
  readonly quantity: Quantity;
  /** Hertz at which it holds, where it goes with frequency. */
  readonly at?: number;
  /** The other winding of a coupling, or the condenser of a tuned circuit. */
  readonly to?: string;
  /** More that a person wants to know: `plates in`, `from RH1.finish to RH1.start`. */
  readonly note?: string;
  /** What a person calls it here, where the name of its quantity would mislead: `frequency`. */
  readonly words?: string;
  /** It says the same as the row before: people are told once. */
  readonly isAgain?: true;
} & (
  | {
      /** In SI units. */
      readonly value: number;
      readonly reason: Reason;
    }
  | { readonly value: undefined; readonly missing: readonly string[] }
);

/** What a row says besides its number. */
export type RowOf = Pick<
  ValueRow,
  'part' | 'quantity' | 'at' | 'to' | 'note' | 'words' | 'isAgain'
>;

/** The row of a value of a part. */
export function rowOf(row: RowOf, reckoned: Reckoned): ValueRow {
  return reckoned.value === undefined
    ? { ...row, value: undefined, missing: reckoned.missing }
    : { ...row, value: reckoned.value, reason: reasonOf(reckoned.because) };
}

/** The row of a number that follows from others. */
export function derivedRow(row: RowOf, value: number | undefined, reason: Reason): ValueRow {
  return value !== undefined && Number.isFinite(value)
    ? { ...row, value, reason }
    : { ...row, value: undefined, missing: ['numbers within reckoning'] };
}

/** The row of a number at work; `missing` says what stands in its way. */
export function rowAtWork(
  row: RowOf,
  figure: Figure | undefined,
  style: UnitStyle,
  missing: readonly string[],
  taking: readonly string[] = [],
): ValueRow {
  return figure
    ? { ...row, value: figure.value, reason: reasonAtWork(figure.because, style, taking) }
    : { ...row, value: undefined, missing };
}
