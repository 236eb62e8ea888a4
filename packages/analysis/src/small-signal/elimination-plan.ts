/**
 * How a sparse matrix is eliminated: which pivots in which order, and what changes what. Made once,
 * used for every matrix of the same pattern.
 */
export interface EliminationPlan {
  readonly size: number;
  /** Values of the matrix and of what elimination fills in besides. */
  readonly slots: number;
  /** Row and column of every pivot, in order. */
  readonly pivotRows: Int32Array;
  readonly pivotColumns: Int32Array;
  /**
   * For every pivot: its slot, the number of rows below it and of columns right of it; the slots
   * and columns of its row; then for every row below: the row, the slot to be cleared, and the
   * slots that change.
   */
  readonly steps: Int32Array;
  /** Where each pivot's part of the steps begins. */
  readonly begins: Int32Array;
  /** Whether rows and columns are put in order by an odd number of exchanges. */
  readonly isOdd: boolean;
}

/** A sparse pattern: row and column of every value, each pair once. */
export interface Pattern {
  readonly size: number;
  readonly rows: Int32Array;
  readonly columns: Int32Array;
}

/** A pivot may be this share of the greatest value in its column. */
const THRESHOLD = 0.1;

/**
 * Chooses pivots for a matrix with these values: of those that are not small in their column the
 * one that fills in least. Undefined for a matrix that is singular to within rounding.
 *
 * About as many steps as there are values, times the size.
 * Source: H. M. Markowitz, "The Elimination Form of the Inverse", Management Science 3 (1957) 255;
 * threshold pivoting as in the handbooks on sparse matrices.
 */
export function planElimination(
  pattern: Pattern,
  re: Float64Array,
  im: Float64Array,
): EliminationPlan | undefined {
  const { size } = pattern;
  const work = scatter(pattern, re, im);
  const { rows, columns, valuesRe, valuesIm } = work;
  const pivotRows = new Int32Array(size);
  const pivotColumns = new Int32Array(size);
  const begins = new Int32Array(size);
  const steps: number[] = [];
  for (let step = 0; step < size; step++) {
    const pivot = choose(work);
    if (!pivot) return undefined;
    const { row, column, slot } = pivot;
    pivotRows[step] = row;
    pivotColumns[step] = column;
    begins[step] = steps.length;
    const right = [...(rows[row] as Map<number, number>)].filter(([at]) => at !== column);
    const below = [...(columns[column] as Set<number>)].filter((at) => at !== row);
    steps.push(slot, below.length, right.length);
    for (const [at, of] of right) steps.push(of, at);
    const pivotRe = valuesRe[slot] as number;
    const pivotIm = valuesIm[slot] as number;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    for (const other of below) {
      const line = rows[other] as Map<number, number>;
      const cleared = line.get(column) as number;
      steps.push(other, cleared);
      const headRe = valuesRe[cleared] as number;
      const headIm = valuesIm[cleared] as number;
      const factorRe = (headRe * pivotRe + headIm * pivotIm) / square;
      const factorIm = (headIm * pivotRe - headRe * pivotIm) / square;
      for (const [at, of] of right) {
        let target = line.get(at);
        if (target === undefined) {
          target = valuesRe.length;
          valuesRe.push(0);
          valuesIm.push(0);
          line.set(at, target);
          (columns[at] as Set<number>).add(other);
        }
        steps.push(target);
        const ofRe = valuesRe[of] as number;
        const ofIm = valuesIm[of] as number;
        valuesRe[target] = (valuesRe[target] as number) - (factorRe * ofRe - factorIm * ofIm);
        valuesIm[target] = (valuesIm[target] as number) - (factorRe * ofIm + factorIm * ofRe);
      }
      line.delete(column);
    }
    for (const [at] of right) (columns[at] as Set<number>).delete(row);
    rows[row] = undefined;
    columns[column] = undefined;
  }
  return {
    size,
    slots: valuesRe.length,
    pivotRows,
    pivotColumns,
    steps: Int32Array.from(steps),
    begins,
    isOdd: isOdd(pivotRows) !== isOdd(pivotColumns),
  };
}

interface Work {
  /** Slots by column, of the rows that are left. */
  readonly rows: (Map<number, number> | undefined)[];
  readonly columns: (Set<number> | undefined)[];
  readonly valuesRe: number[];
  readonly valuesIm: number[];
}

function scatter({ size, rows, columns }: Pattern, re: Float64Array, im: Float64Array): Work {
  const work: Work = {
    rows: Array.from({ length: size }, () => new Map<number, number>()),
    columns: Array.from({ length: size }, () => new Set<number>()),
    valuesRe: Array.from(re.subarray(0, rows.length)),
    valuesIm: Array.from(im.subarray(0, rows.length)),
  };
  for (let slot = 0; slot < rows.length; slot++) {
    work.rows[rows[slot] as number]?.set(columns[slot] as number, slot);
    work.columns[columns[slot] as number]?.add(rows[slot] as number);
  }
  return work;
}

function choose({ rows, columns, valuesRe, valuesIm }: Work) {
  let best: { row: number; column: number; slot: number } | undefined;
  let least = Number.POSITIVE_INFINITY;
  let bestShare = 0;
  for (const [column, members] of columns.entries()) {
    if (!members || members.size === 0) continue;
    let most = 0;
    for (const row of members) {
      const slot = rows[row]?.get(column) as number;
      most = Math.max(most, Math.hypot(valuesRe[slot] as number, valuesIm[slot] as number));
    }
    if (!(most > 0) || !Number.isFinite(most)) continue;
    for (const row of members) {
      const line = rows[row] as Map<number, number>;
      const slot = line.get(column) as number;
      const share = Math.hypot(valuesRe[slot] as number, valuesIm[slot] as number) / most;
      if (!(share >= THRESHOLD)) continue;
      const cost = (line.size - 1) * (members.size - 1);
      if (cost > least || (cost === least && share <= bestShare)) continue;
      least = cost;
      bestShare = share;
      best = { row, column, slot };
    }
  }
  return best;
}

function isOdd(order: Int32Array): boolean {
  const seen = new Uint8Array(order.length);
  let odd = false;
  for (let start = 0; start < order.length; start++) {
    if (seen[start]) continue;
    let length = 0;
    for (let at = start; !seen[at]; at = order[at] as number) {
      seen[at] = 1;
      length++;
    }
    if (length % 2 === 0) odd = !odd;
  }
  return odd;
}
