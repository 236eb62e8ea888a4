/** A square matrix factored in place, rows one after another, with the order of its rows. */
export interface RealFactors {
  readonly size: number;
  readonly values: Float64Array;
  readonly rows: Int32Array;
}

/**
 * Factors a small square matrix, which is overwritten; undefined where it is singular to within
 * rounding. Of the rows left the one whose head is largest against its own largest value is taken.
 */
export function factorReal(size: number, values: Float64Array): RealFactors | undefined {
  const rows = Int32Array.from({ length: size }, (_, row) => row);
  const scale = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    let most = 0;
    for (let column = 0; column < size; column++)
      most = Math.max(most, Math.abs(values[row * size + column] as number));
    if (!(most > 0 && most < Number.MAX_VALUE)) return undefined;
    scale[row] = 1 / most;
  }
  for (let step = 0; step < size; step++) {
    let best = -1;
    let most = 1e-15;
    for (let place = step; place < size; place++) {
      const row = rows[place] as number;
      const head = Math.abs(values[row * size + step] as number) * (scale[row] as number);
      if (head > most) [best, most] = [place, head];
    }
    if (best < 0) return undefined;
    const pivotRow = rows[best] as number;
    rows[best] = rows[step] as number;
    rows[step] = pivotRow;
    const own = pivotRow * size;
    const pivot = values[own + step] as number;
    for (let place = step + 1; place < size; place++) {
      const at = (rows[place] as number) * size;
      const factor = (values[at + step] as number) / pivot;
      values[at + step] = factor;
      if (factor === 0) continue;
      for (let column = step + 1; column < size; column++)
        values[at + column] =
          (values[at + column] as number) - factor * (values[own + column] as number);
    }
  }
  return { size, values, rows };
}

/** Solves for a right side, which is left alone, into `x`, which is given back. */
export function solveReal(
  { size, values, rows }: RealFactors,
  right: Float64Array,
  x: Float64Array,
): Float64Array {
  for (let step = 0; step < size; step++) {
    const row = rows[step] as number;
    let sum = right[row] as number;
    for (let column = 0; column < step; column++)
      sum -= (values[row * size + column] as number) * (x[column] as number);
    x[step] = sum;
  }
  for (let step = size - 1; step >= 0; step--) {
    const at = (rows[step] as number) * size;
    let sum = x[step] as number;
    for (let column = step + 1; column < size; column++)
      sum -= (values[at + column] as number) * (x[column] as number);
    x[step] = sum / (values[at + step] as number);
  }
  return x;
}
