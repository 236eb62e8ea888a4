import type { SignalSystem } from './signal-system.ts';

/** One question to a network: what one volt in a series piece makes between two points. */
export interface Question {
  /** The series piece that the volt stands in. */
  readonly series: string;
  readonly plus: number;
  readonly minus: number;
}

/**
 * A system with a question as its last row and column: when all but these are eliminated, what is
 * left of them is the answer in volts, with its sign turned. Undefined for no such series piece.
 */
export function borderedSystem(
  system: SignalSystem,
  { series, plus, minus }: Question,
): SignalSystem | undefined {
  const { pattern, still, unsteered, moving } = system;
  const { size } = pattern;
  const drive = system.rowOfSeries.get(series);
  if (drive === undefined) return undefined;
  const entries: (readonly [row: number, column: number, value: number])[] = [[drive, size, -1]];
  if (plus !== minus) {
    if (plus > 0) entries.push([size, plus - 1, 1]);
    if (minus > 0) entries.push([size, minus - 1, -1]);
  }
  return {
    ...system,
    pattern: {
      size: size + 1,
      rows: Int32Array.from([...pattern.rows, ...entries.map(([row]) => row)]),
      columns: Int32Array.from([...pattern.columns, ...entries.map(([, column]) => column)]),
    },
    still: Float64Array.from([...still, ...entries.map(([, , value]) => value)]),
    moving: Float64Array.from([...moving, ...entries.map(() => 0)]),
    unsteered: Float64Array.from([...unsteered, ...entries.map(([, , value]) => value)]),
    rooms: [],
    plans: [],
  };
}
