/** Pivots below this share of the largest diagonal entry are round-off. */
const ROUND_OFF = 1e-9;

/**
 * Whether a symmetric matrix is positive semidefinite to within round-off: no currents in coupled
 * windings could then store less energy than none. Cholesky's factoring with the largest pivot
 * first, n³/6. False for anything that is not a number.
 */
export function isPositiveSemidefinite(matrix: readonly (readonly number[])[]): boolean {
  const size = matrix.length;
  // Each row is measured by its own diagonal, so that millihenries hide no microhenries.
  const scale = matrix.map((row, index) => Math.sqrt(Math.max(0, row[index] ?? 0)));
  const rest = matrix.map((row, r) =>
    row.map((entry, c) => {
      const unit = (scale[r] ?? 0) * (scale[c] ?? 0);
      return unit > 0 ? entry / unit : entry;
    }),
  );
  const open = new Set(rest.keys());
  while (open.size > 0) {
    let pivot = -1;
    let most = Number.NEGATIVE_INFINITY;
    for (const index of open) {
      const entry = rest[index]?.[index] ?? Number.NaN;
      if (!Number.isFinite(entry) || entry < -size * ROUND_OFF) return false;
      if (entry > most) {
        most = entry;
        pivot = index;
      }
    }
    open.delete(pivot);
    if (most <= size * ROUND_OFF) return isNothing(rest, open, Math.sqrt(size * ROUND_OFF));
    for (const row of open) {
      const line = rest[row];
      const factor = (line?.[pivot] ?? Number.NaN) / most;
      if (!line) continue;
      for (const column of open)
        line[column] = (line[column] ?? 0) - factor * (rest[pivot]?.[column] ?? 0);
    }
  }
  return true;
}

/** With nothing left on the diagonal there may be nothing beside it either. */
function isNothing(
  rest: readonly (readonly number[])[],
  open: ReadonlySet<number>,
  most: number,
): boolean {
  for (const row of open)
    for (const column of open) if (!(Math.abs(rest[row]?.[column] ?? 0) <= most)) return false;
  return true;
}
