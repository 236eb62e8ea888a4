import type { Scene } from '../src/index.ts';

/** Where a part stands. */
export interface Spot {
  readonly row: number;
  readonly x: number;
}

/**
 * Row and place in it of each part; the filament circuit below counts as a row. Terminals are
 * left out.
 */
export function places({ symbols }: Scene): Map<string, Spot> {
  const tubes = symbols.filter(({ symbol }) => /^(tube|filament)/.test(symbol));
  // Rows stand farther apart than anything in one row from the tubes of it.
  const levels = [...new Set(tubes.map(({ at }) => at.y))]
    .sort((a, b) => a - b)
    .filter((y, index, all) => index === 0 || y - all[index - 1]! > 120);
  const rowOf = (y: number): number => {
    const away = levels.map((level) => Math.abs(level - y));
    return away.indexOf(Math.min(...away));
  };
  return new Map(
    symbols
      .filter(({ symbol }) => !/^(filament|terminal|name)$/.test(symbol))
      .map(({ part, at }) => [part, { row: rowOf(at.y), x: at.x }]),
  );
}

/** Whether one part is read before another: in an earlier row, or to the left of it. */
export const isBefore = (one: Spot, other: Spot): boolean =>
  one.row < other.row || (one.row === other.row && one.x < other.x);
