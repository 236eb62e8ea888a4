/** A small square matrix of complex numbers, row by row. */
export interface DenseMatrix {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export function denseMatrix(size: number): DenseMatrix {
  return { size, re: new Float64Array(size * size), im: new Float64Array(size * size) };
}

/**
 * Puts the inverse of a matrix in its place, by elimination with row pivoting. False for a singular
 * matrix, of which nothing sensible is left. Cubic.
 */
export function invert({ size, re, im }: DenseMatrix): boolean {
  const exchanged = new Int32Array(size);
  for (let step = 0; step < size; step++) {
    let pivot = step;
    let most = 0;
    for (let row = step; row < size; row++) {
      const x = re[row * size + step] as number;
      const y = im[row * size + step] as number;
      const square = x * x + y * y;
      if (square > most) {
        pivot = row;
        most = square;
      }
    }
    if (!(most > 0) || !Number.isFinite(most)) return false;
    exchanged[step] = pivot;
    if (pivot !== step) exchangeRows(re, im, size, pivot, step);
    const own = step * size + step;
    const oneRe = (re[own] as number) / most;
    const oneIm = (0 - (im[own] as number)) / most;
    re[own] = 1;
    im[own] = 0;
    for (let at = step * size; at < (step + 1) * size; at++) {
      const x = re[at] as number;
      const y = im[at] as number;
      re[at] = x * oneRe - y * oneIm;
      im[at] = x * oneIm + y * oneRe;
    }
    for (let row = 0; row < size; row++) {
      if (row === step) continue;
      const head = row * size + step;
      const headRe = re[head] as number;
      const headIm = im[head] as number;
      if (headRe === 0 && headIm === 0) continue;
      re[head] = 0;
      im[head] = 0;
      for (let column = 0; column < size; column++) {
        const of = step * size + column;
        const at = row * size + column;
        const x = re[of] as number;
        const y = im[of] as number;
        re[at] = (re[at] as number) - (headRe * x - headIm * y);
        im[at] = (im[at] as number) - (headRe * y + headIm * x);
      }
    }
  }
  // What was done to rows on the way in is undone to columns on the way out.
  for (let step = size - 1; step >= 0; step--) {
    const pivot = exchanged[step] as number;
    if (pivot !== step) exchangeColumns(re, im, size, pivot, step);
  }
  return true;
}

function exchangeRows(
  re: Float64Array,
  im: Float64Array,
  size: number,
  one: number,
  other: number,
): void {
  for (let column = 0; column < size; column++)
    exchange(re, im, one * size + column, other * size + column);
}

function exchangeColumns(
  re: Float64Array,
  im: Float64Array,
  size: number,
  one: number,
  other: number,
): void {
  for (let row = 0; row < size; row++) exchange(re, im, row * size + one, row * size + other);
}

function exchange(re: Float64Array, im: Float64Array, one: number, other: number): void {
  const x = re[one] as number;
  const y = im[one] as number;
  re[one] = re[other] as number;
  im[one] = im[other] as number;
  re[other] = x;
  im[other] = y;
}
