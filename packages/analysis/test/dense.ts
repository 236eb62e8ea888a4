/** Solves a dense system by Gaussian elimination with partial pivoting. */
export function gaussian(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const matrix = rows.map((row, index) => [...row, right[index]!]);
  const size = matrix.length;
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let row = column + 1; row < size; row++)
      if (Math.abs(matrix[row]![column]!) > Math.abs(matrix[pivot]![column]!)) pivot = row;
    [matrix[column], matrix[pivot]] = [matrix[pivot]!, matrix[column]!];
    for (let row = column + 1; row < size; row++) {
      const factor = matrix[row]![column]! / matrix[column]![column]!;
      for (let at = column; at <= size; at++) matrix[row]![at]! -= factor * matrix[column]![at]!;
    }
  }
  const found = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = matrix[row]![size]!;
    for (let at = row + 1; at < size; at++) sum -= matrix[row]![at]! * found[at]!;
    found[row] = sum / matrix[row]![row]!;
  }
  return found;
}

/** A small generator of whole numbers, so that every run is the same. */
export function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}
