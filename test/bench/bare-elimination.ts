import type { SmallSignal } from '@setwright/analysis';

/** A square matrix of complex numbers row by row, with a right-hand side. */
export interface Equations {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly rightRe: Float64Array;
  readonly rightIm: Float64Array;
}

/** A set's equations at a frequency in hertz, one volt standing in its aerial. */
export function equationsAt({ system, entrance }: SmallSignal, frequency: number): Equations {
  const { pattern, still, moving, losses, rowOfSeries } = system;
  const { size, rows, columns } = pattern;
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  const add = (slot: number, real: number, imaginary: number): void => {
    const at = (rows[slot] ?? 0) * size + (columns[slot] ?? 0);
    re[at] = (re[at] ?? 0) + real;
    im[at] = (im[at] ?? 0) + imaginary;
  };
  for (let slot = 0; slot < rows.length; slot++)
    add(slot, still[slot] ?? 0, 2 * Math.PI * frequency * (moving[slot] ?? 0));
  // Currents are counted in milliamperes.
  for (const { slot, ohms } of losses) add(slot, 0 - ohms(frequency) / 1000, 0);
  const rightRe = new Float64Array(size);
  const row = rowOfSeries.get(entrance?.series ?? '');
  if (row !== undefined) rightRe[row] = -1;
  return { size, re, im, rightRe, rightIm: new Float64Array(size) };
}

export function copyOf({ size, re, im, rightRe, rightIm }: Equations): Equations {
  return {
    size,
    re: Float64Array.from(re),
    im: Float64Array.from(im),
    rightRe: Float64Array.from(rightRe),
    rightIm: Float64Array.from(rightIm),
  };
}

/**
 * Gauss's elimination with row pivoting and substitution back, as plain as it can be written. The
 * solution takes the place of the right-hand side.
 */
export function solveBare({ size, re, im, rightRe, rightIm }: Equations): void {
  const n = (of: Float64Array, at: number): number => of[at] as number;
  for (let step = 0; step < size; step++) {
    let pivot = step;
    let most = 0;
    for (let row = step; row < size; row++) {
      const at = row * size + step;
      const square = n(re, at) * n(re, at) + n(im, at) * n(im, at);
      if (square > most) {
        pivot = row;
        most = square;
      }
    }
    if (pivot !== step) {
      for (let column = step; column < size; column++) {
        exchange(re, pivot * size + column, step * size + column);
        exchange(im, pivot * size + column, step * size + column);
      }
      exchange(rightRe, pivot, step);
      exchange(rightIm, pivot, step);
    }
    const own = step * size + step;
    const oneRe = n(re, own) / most;
    const oneIm = 0 - n(im, own) / most;
    for (let row = step + 1; row < size; row++) {
      const head = row * size + step;
      const x = n(re, head);
      const y = n(im, head);
      const byRe = x * oneRe - y * oneIm;
      const byIm = x * oneIm + y * oneRe;
      for (let column = step + 1; column < size; column++) {
        const of = step * size + column;
        const at = row * size + column;
        re[at] = n(re, at) - (byRe * n(re, of) - byIm * n(im, of));
        im[at] = n(im, at) - (byRe * n(im, of) + byIm * n(re, of));
      }
      rightRe[row] = n(rightRe, row) - (byRe * n(rightRe, step) - byIm * n(rightIm, step));
      rightIm[row] = n(rightIm, row) - (byRe * n(rightIm, step) + byIm * n(rightRe, step));
    }
  }
  for (let row = size - 1; row >= 0; row--) {
    let x = n(rightRe, row);
    let y = n(rightIm, row);
    for (let column = row + 1; column < size; column++) {
      const at = row * size + column;
      x -= n(re, at) * n(rightRe, column) - n(im, at) * n(rightIm, column);
      y -= n(re, at) * n(rightIm, column) + n(im, at) * n(rightRe, column);
    }
    const own = row * size + row;
    const square = n(re, own) * n(re, own) + n(im, own) * n(im, own);
    rightRe[row] = (x * n(re, own) + y * n(im, own)) / square;
    rightIm[row] = (y * n(re, own) - x * n(im, own)) / square;
  }
}

function exchange(values: Float64Array, one: number, other: number): void {
  const kept = values[one] as number;
  values[one] = values[other] as number;
  values[other] = kept;
}
