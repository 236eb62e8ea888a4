/** A complex number: real and imaginary part. */
export type Complex = readonly [re: number, im: number];

export const add = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
export const minus = (a: Complex, b: Complex): Complex => [a[0] - b[0], a[1] - b[1]];
export const times = (a: Complex, b: Complex): Complex => [
  a[0] * b[0] - a[1] * b[1],
  a[0] * b[1] + a[1] * b[0],
];
export const scaled = (a: Complex, by: number): Complex => [a[0] * by, a[1] * by];

/** 1/a; 0 for a number without a size, which stands for an open way. */
export function inverse(a: Complex): Complex {
  const square = a[0] * a[0] + a[1] * a[1];
  return square > 0 ? [a[0] / square, -a[1] / square] : [0, 0];
}

/** The determinant of a square matrix, by elimination with the largest pivot. */
export function determinant(matrix: readonly (readonly Complex[])[]): Complex {
  const rows = matrix.map((row) => [...row]);
  let product: Complex = [1, 0];
  for (let at = 0; at < rows.length; at++) {
    const pivot = largestBelow(rows, at);
    if (pivot !== at) {
      const other = rows[pivot] as Complex[];
      rows[pivot] = rows[at] as Complex[];
      rows[at] = other;
      product = scaled(product, -1);
    }
    const line = rows[at] as Complex[];
    product = times(product, line[at] as Complex);
    const inverted = inverse(line[at] as Complex);
    for (const row of rows.slice(at + 1)) {
      const factor = times(row[at] as Complex, inverted);
      for (let column = at; column < row.length; column++)
        row[column] = minus(row[column] as Complex, times(factor, line[column] as Complex));
    }
  }
  return product;
}

/**
 * Solves a square system for several right sides at once. Rows that hang on nothing give 0.
 *
 * @param matrix square. @param sides for every row its right sides.
 * @returns for every unknown its value on each right side.
 */
export function solved(
  matrix: readonly (readonly Complex[])[],
  sides: readonly (readonly Complex[])[],
): readonly (readonly Complex[])[] {
  const size = matrix.length;
  const rows = matrix.map((row, index) => [...row, ...(sides[index] ?? [])]);
  for (let at = 0; at < size; at++) {
    const pivot = largestBelow(rows, at);
    const other = rows[pivot] as Complex[];
    rows[pivot] = rows[at] as Complex[];
    rows[at] = other;
    const inverted = inverse(other[at] as Complex);
    for (let column = at; column < other.length; column++)
      other[column] = times(other[column] as Complex, inverted);
    for (const [index, row] of rows.entries()) {
      if (index === at) continue;
      const factor = row[at] as Complex;
      if (factor[0] === 0 && factor[1] === 0) continue;
      for (let column = at; column < row.length; column++)
        row[column] = minus(row[column] as Complex, times(factor, other[column] as Complex));
    }
  }
  return rows.map((row) => row.slice(size));
}

function largestBelow(rows: readonly (readonly Complex[])[], at: number): number {
  let found = at;
  let most = 0;
  for (let row = at; row < rows.length; row++) {
    const [re, im] = rows[row]?.[at] ?? [0, 0];
    const size = re * re + im * im;
    if (size <= most) continue;
    most = size;
    found = row;
  }
  return found;
}
