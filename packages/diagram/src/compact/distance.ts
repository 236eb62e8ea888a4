/** How far one thing must at least be moved after another; both move by multiples of `grid`. */
export interface Distance {
  readonly before: number;
  readonly after: number;
  readonly least: number;
}

const grid = 5;

/** A move on the grid, never shorter than asked for. */
export const onGrid = (move: number): number => Math.ceil(move / grid) * grid + 0;
