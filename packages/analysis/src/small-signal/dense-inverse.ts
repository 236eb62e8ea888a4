/** A small square matrix of complex numbers, row by row. */
export interface DenseMatrix {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export function denseMatrix(size: number): DenseMatrix {
  return { size, re: new Float64Array(size * size), im: new Float64Array(size * size) };
}

/** The inverse by elimination with row pivoting; undefined for a singular matrix. Cubic. */
export function denseInverse({ size, re, im }: DenseMatrix): DenseMatrix | undefined {
  const left = { size, re: Float64Array.from(re), im: Float64Array.from(im) };
  const right = denseMatrix(size);
  for (let at = 0; at < size; at++) right.re[at * size + at] = 1;
  for (let step = 0; step < size; step++) {
    let pivot = step;
    let most = 0;
    for (let row = step; row < size; row++) {
      const each = magnitude(left, row * size + step);
      if (each > most) [pivot, most] = [row, each];
    }
    if (!(most > 0) || !Number.isFinite(most)) return undefined;
    exchange(left, pivot, step);
    exchange(right, pivot, step);
    const at = step * size + step;
    const square = most * most;
    const oneRe = (left.re[at] as number) / square;
    const oneIm = (0 - (left.im[at] as number)) / square;
    scale(left, step, oneRe, oneIm);
    scale(right, step, oneRe, oneIm);
    for (let row = 0; row < size; row++) {
      if (row === step) continue;
      const headRe = left.re[row * size + step] as number;
      const headIm = left.im[row * size + step] as number;
      if (headRe === 0 && headIm === 0) continue;
      subtract(left, row, step, headRe, headIm);
      subtract(right, row, step, headRe, headIm);
    }
  }
  return right;
}

function magnitude({ re, im }: DenseMatrix, at: number): number {
  return Math.hypot(re[at] as number, im[at] as number);
}

function exchange({ size, re, im }: DenseMatrix, one: number, other: number): void {
  if (one === other) return;
  for (const values of [re, im]) {
    const kept = values.slice(one * size, (one + 1) * size);
    values.copyWithin(one * size, other * size, (other + 1) * size);
    values.set(kept, other * size);
  }
}

function scale({ size, re, im }: DenseMatrix, row: number, byRe: number, byIm: number): void {
  for (let at = row * size; at < (row + 1) * size; at++) {
    const ofRe = re[at] as number;
    const ofIm = im[at] as number;
    re[at] = ofRe * byRe - ofIm * byIm;
    im[at] = ofRe * byIm + ofIm * byRe;
  }
}

function subtract(
  { size, re, im }: DenseMatrix,
  from: number,
  row: number,
  byRe: number,
  byIm: number,
): void {
  for (let column = 0; column < size; column++) {
    const ofRe = re[row * size + column] as number;
    const ofIm = im[row * size + column] as number;
    const at = from * size + column;
    re[at] = (re[at] as number) - (byRe * ofRe - byIm * ofIm);
    im[at] = (im[at] as number) - (byRe * ofIm + byIm * ofRe);
  }
}
