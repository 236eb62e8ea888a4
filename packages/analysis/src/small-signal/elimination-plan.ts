/**
 * How a sparse matrix is eliminated: which pivots in which order, and what changes what. Made once,
 * used for every matrix of the same pattern.
 */
export interface EliminationPlan {
  /** Values of the matrix and of what elimination fills in besides. */
  readonly slots: number;
  /** Row and column of every pivot, in order: of all rows but those that are kept. */
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
  /** Slots of what is left of the rows and columns that are kept, row by row; −1 for nothing. */
  readonly corner: Int32Array;
  /** Whether rows and columns, the kept ones last, are put in order by an odd number of exchanges. */
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
 *
 * @param kept rows, and columns of the same numbers, that no pivot is chosen of
 *
 * Source: H. M. Markowitz, "The Elimination Form of the Inverse", Management Science 3 (1957) 255;
 * threshold pivoting as in the handbooks on sparse matrices.
 */
export function planElimination(
  pattern: Pattern,
  re: Float64Array,
  im: Float64Array,
  kept: readonly number[] = [],
): EliminationPlan | undefined {
  const { size } = pattern;
  const work = scatter(pattern, re, im, kept);
  const { rows, columns, valuesRe, valuesIm } = work;
  const pivots = size - kept.length;
  const pivotRows = new Int32Array(pivots);
  const pivotColumns = new Int32Array(pivots);
  const begins = new Int32Array(pivots);
  const steps: number[] = [];
  for (let step = 0; step < pivots; step++) {
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
      for (const at of line.keys()) work.stale.add(at);
    }
    for (const [at] of right) {
      (columns[at] as Set<number>).delete(row);
      work.stale.add(at);
    }
    rows[row] = undefined;
    columns[column] = undefined;
    work.candidates[column] = undefined;
  }
  return {
    slots: valuesRe.length,
    pivotRows,
    pivotColumns,
    steps: Int32Array.from(steps),
    begins,
    corner: Int32Array.from(
      kept.flatMap((row) => kept.map((column) => rows[row]?.get(column) ?? -1)),
    ),
    isOdd: isOdd([...pivotRows, ...kept]) !== isOdd([...pivotColumns, ...kept]),
  };
}

interface Work {
  /** Slots by column, of the rows that are left. */
  readonly rows: (Map<number, number> | undefined)[];
  readonly columns: (Set<number> | undefined)[];
  readonly valuesRe: number[];
  readonly valuesIm: number[];
  readonly kept: ReadonlySet<number>;
  /** The best of every column, but for those that have changed since. */
  readonly candidates: (Candidate | undefined)[];
  readonly stale: Set<number>;
}

function scatter(
  { size, rows, columns }: Pattern,
  re: Float64Array,
  im: Float64Array,
  kept: readonly number[],
): Work {
  const work: Work = {
    rows: Array.from({ length: size }, () => new Map<number, number>()),
    columns: Array.from({ length: size }, () => new Set<number>()),
    valuesRe: Array.from(re.subarray(0, rows.length)),
    valuesIm: Array.from(im.subarray(0, rows.length)),
    kept: new Set(kept),
    candidates: new Array(size).fill(undefined),
    stale: new Set(Array.from({ length: size }, (_, column) => column)),
  };
  for (let slot = 0; slot < rows.length; slot++) {
    work.rows[rows[slot] as number]?.set(columns[slot] as number, slot);
    work.columns[columns[slot] as number]?.add(rows[slot] as number);
  }
  return work;
}

/** What may be the next pivot of a column. */
interface Candidate {
  readonly row: number;
  readonly column: number;
  readonly slot: number;
  /** How much its elimination may fill in. */
  readonly cost: number;
  /** Its square against the greatest of its column. */
  readonly share: number;
}

/** Of every column's best the one that fills in least, of like ones the greatest. */
function choose(work: Work): Candidate | undefined {
  const { candidates, stale } = work;
  for (const column of stale) candidates[column] = bestOf(work, column);
  stale.clear();
  let best: Candidate | undefined;
  for (const each of candidates) if (each && (!best || isBetter(each, best))) best = each;
  return best;
}

function isBetter(one: Candidate, other: Candidate): boolean {
  return one.cost < other.cost || (one.cost === other.cost && one.share > other.share);
}

function bestOf(
  { rows, columns, valuesRe, valuesIm, kept }: Work,
  column: number,
): Candidate | undefined {
  const members = columns[column];
  if (!members || kept.has(column)) return undefined;
  const squareOf = (row: number): number => {
    const slot = rows[row]?.get(column) as number;
    const re = valuesRe[slot] as number;
    const im = valuesIm[slot] as number;
    return re * re + im * im;
  };
  let most = 0;
  for (const row of members) if (!kept.has(row)) most = Math.max(most, squareOf(row));
  if (!(most > 0) || !Number.isFinite(most)) return undefined;
  let best: Candidate | undefined;
  for (const row of members) {
    if (kept.has(row)) continue;
    const share = squareOf(row) / most;
    if (!(share >= THRESHOLD * THRESHOLD)) continue;
    const line = rows[row] as Map<number, number>;
    const cost = (line.size - 1) * (members.size - 1);
    const each = { row, column, slot: line.get(column) as number, cost, share };
    if (!best || isBetter(each, best)) best = each;
  }
  return best;
}

function isOdd(order: readonly number[]): boolean {
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
