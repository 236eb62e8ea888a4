/** Room for determinants of small matrices with their slopes, used again for each of them. */
export interface SmallMatrix {
  readonly size: number;
  /** Entries row by row, as pairs of real and imaginary parts. */
  readonly values: Float64Array;
  /** How the entries go with one variable. */
  readonly slopes: Float64Array;
}

export function smallMatrix(size: number): SmallMatrix {
  return {
    size,
    values: new Float64Array(2 * size * size),
    slopes: new Float64Array(2 * size * size),
  };
}

/** A determinant by its logarithm and angle, and how the complex logarithm goes. */
export interface SlopingDeterminant {
  readonly logarithm: number;
  readonly angle: number;
  readonly slopeRe: number;
  readonly slopeIm: number;
}

/**
 * The determinant of a small matrix and the slope of its logarithm, by elimination with row
 * pivoting in which every value carries its slope along. Writes over the matrix. Undefined for a
 * matrix that is singular to within rounding. Cubic.
 */
export function slopingDeterminant({
  size,
  values,
  slopes,
}: SmallMatrix): SlopingDeterminant | undefined {
  const both = [values, slopes];
  let re = 1;
  let im = 0;
  let logarithm = 0;
  let slopeRe = 0;
  let slopeIm = 0;
  for (let step = 0; step < size; step++) {
    if (raise(both, size, size, step)) {
      re = 0 - re;
      im = 0 - im;
    }
    const own = 2 * (step * size + step);
    const pivotRe = values[own] as number;
    const pivotIm = values[own + 1] as number;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    if (!(square > 1e-300 && square < 1e300)) return undefined;
    const oneRe = pivotRe / square;
    const oneIm = 0 - pivotIm / square;
    const goesRe = slopes[own] as number;
    const goesIm = slopes[own + 1] as number;
    // How the pivot's logarithm goes.
    const rateRe = goesRe * oneRe - goesIm * oneIm;
    const rateIm = goesRe * oneIm + goesIm * oneRe;
    slopeRe += rateRe;
    slopeIm += rateIm;
    const next = re * pivotRe - im * pivotIm;
    im = re * pivotIm + im * pivotRe;
    re = next;
    const most = Math.abs(re) + Math.abs(im);
    if (most > 1e100 || most < 1e-100) {
      logarithm += Math.log(most);
      re /= most;
      im /= most;
    }
    for (let row = step + 1; row < size; row++) {
      const head = 2 * (row * size + step);
      const headRe = values[head] as number;
      const headIm = values[head + 1] as number;
      const byRe = headRe * oneRe - headIm * oneIm;
      const byIm = headRe * oneIm + headIm * oneRe;
      const alsoRe = slopes[head] as number;
      const alsoIm = slopes[head + 1] as number;
      const turnRe = alsoRe * oneRe - alsoIm * oneIm - (byRe * rateRe - byIm * rateIm);
      const turnIm = alsoRe * oneIm + alsoIm * oneRe - (byRe * rateIm + byIm * rateRe);
      for (let column = step + 1; column < size; column++) {
        const of = 2 * (step * size + column);
        const at = 2 * (row * size + column);
        const x = values[of] as number;
        const y = values[of + 1] as number;
        const u = slopes[of] as number;
        const v = slopes[of + 1] as number;
        values[at] = (values[at] as number) - (byRe * x - byIm * y);
        values[at + 1] = (values[at + 1] as number) - (byRe * y + byIm * x);
        slopes[at] = (slopes[at] as number) - (turnRe * x - turnIm * y + byRe * u - byIm * v);
        slopes[at + 1] =
          (slopes[at + 1] as number) - (turnRe * y + turnIm * x + byRe * v + byIm * u);
      }
    }
  }
  return {
    logarithm: logarithm + 0.5 * Math.log(re * re + im * im),
    angle: Math.atan2(im, re),
    slopeRe,
    slopeIm,
  };
}

/**
 * Brings the greatest of a column, of so many rows, up to the step; whether rows were exchanged.
 *
 * @param all matrices of a size whose rows are exchanged together; the first one decides
 */
function raise(all: readonly Float64Array[], size: number, rows: number, step: number): boolean {
  const [values] = all;
  if (!values) return false;
  let pivot = step;
  let most = 0;
  for (let row = step; row < rows; row++) {
    const at = 2 * (row * size + step);
    const re = values[at] as number;
    const im = values[at + 1] as number;
    const square = re * re + im * im;
    if (square > most) {
      pivot = row;
      most = square;
    }
  }
  if (pivot === step) return false;
  for (const each of all) {
    for (let column = 2 * step; column < 2 * size; column++) {
      const one = 2 * step * size + column;
      const other = 2 * pivot * size + column;
      const kept = each[one] as number;
      each[one] = each[other] as number;
      each[other] = kept;
    }
  }
  return true;
}

/**
 * Eliminates the first so many unknowns of a matrix, the pivots taken from their rows, in place:
 * what is left of the others stands in their rows and columns. False where the first ones are
 * singular to within rounding.
 */
export function eliminateFirst(values: Float64Array, size: number, many: number): boolean {
  const only = [values];
  for (let step = 0; step < many; step++) {
    raise(only, size, many, step);
    const own = 2 * (step * size + step);
    const pivotRe = values[own] as number;
    const pivotIm = values[own + 1] as number;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    if (!(square > 1e-300 && square < 1e300)) return false;
    for (let row = step + 1; row < size; row++) {
      const head = 2 * (row * size + step);
      const headRe = values[head] as number;
      const headIm = values[head + 1] as number;
      if (headRe === 0 && headIm === 0) continue;
      const byRe = (headRe * pivotRe + headIm * pivotIm) / square;
      const byIm = (headIm * pivotRe - headRe * pivotIm) / square;
      for (let column = step + 1; column < size; column++) {
        const of = 2 * (step * size + column);
        const at = 2 * (row * size + column);
        const x = values[of] as number;
        const y = values[of + 1] as number;
        values[at] = (values[at] as number) - (byRe * x - byIm * y);
        values[at + 1] = (values[at + 1] as number) - (byRe * y + byIm * x);
      }
    }
  }
  return true;
}
