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
  const { rows, columns, stale, place } = work;
  const pivots = size - kept.length;
  const pivotRows = new Int32Array(pivots);
  const pivotColumns = new Int32Array(pivots);
  const begins = new Int32Array(pivots);
  const steps: number[] = [];
  for (let step = 0; step < pivots; step++) {
    const column = choose(work);
    if (column < 0) return undefined;
    const row = work.bestRows[column] as number;
    const right = rows[row] as Line;
    const below = columns[column] as Line;
    const slot = take(right, column);
    take(below, row);
    pivotRows[step] = row;
    pivotColumns[step] = column;
    begins[step] = steps.length;
    steps.push(slot, below.at.length, right.at.length);
    for (let each = 0; each < right.at.length; each++) {
      steps.push(right.slots[each] as number, right.at[each] as number);
      take(columns[right.at[each] as number] as Line, row);
      stale[right.at[each] as number] = 1;
    }
    // As many as may be filled in, so that the values stay where they are meanwhile.
    roomForValues(work, below.at.length * right.at.length);
    const { valuesRe, valuesIm } = work;
    const pivotRe = valuesRe[slot] as number;
    const pivotIm = valuesIm[slot] as number;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    for (const other of below.at) {
      const line = rows[other] as Line;
      const cleared = take(line, column);
      steps.push(other, cleared);
      const headRe = valuesRe[cleared] as number;
      const headIm = valuesIm[cleared] as number;
      const factorRe = (headRe * pivotRe + headIm * pivotIm) / square;
      const factorIm = (headIm * pivotRe - headRe * pivotIm) / square;
      for (let each = 0; each < line.at.length; each++)
        place[line.at[each] as number] = line.slots[each] as number;
      for (let each = 0; each < right.at.length; each++) {
        const at = right.at[each] as number;
        const of = right.slots[each] as number;
        let target = place[at] as number;
        if (target < 0) {
          target = work.slots++;
          put(line, at, target);
          put(columns[at] as Line, other, target);
        }
        steps.push(target);
        const ofRe = valuesRe[of] as number;
        const ofIm = valuesIm[of] as number;
        valuesRe[target] = (valuesRe[target] as number) - (factorRe * ofRe - factorIm * ofIm);
        valuesIm[target] = (valuesIm[target] as number) - (factorRe * ofIm + factorIm * ofRe);
      }
      for (const at of line.at) {
        place[at] = -1;
        stale[at] = 1;
      }
    }
    work.isGone[column] = 1;
  }
  return {
    slots: work.slots,
    pivotRows,
    pivotColumns,
    steps: Int32Array.from(steps),
    begins,
    corner: Int32Array.from(
      kept.flatMap((row) => {
        const { at, slots } = rows[row] as Line;
        return kept.map((column) => slots[at.indexOf(column)] ?? -1);
      }),
    ),
    isOdd: isOdd([...pivotRows, ...kept]) !== isOdd([...pivotColumns, ...kept]),
  };
}

/** The columns of a row that is left, or the rows of a column, with the slots of their values. */
interface Line {
  readonly at: number[];
  readonly slots: number[];
}

function put({ at, slots }: Line, where: number, slot: number): void {
  at.push(where);
  slots.push(slot);
}

/** Takes a place out of a line, and gives back its slot. */
function take({ at, slots }: Line, where: number): number {
  const index = at.indexOf(where);
  const slot = slots[index] as number;
  const last = at.pop() as number;
  const lastSlot = slots.pop() as number;
  if (index < at.length) {
    at[index] = last;
    slots[index] = lastSlot;
  }
  return slot;
}

interface Work {
  readonly rows: readonly Line[];
  readonly columns: readonly Line[];
  /** Values by slot, with room for more. */
  valuesRe: Float64Array;
  valuesIm: Float64Array;
  slots: number;
  readonly isKept: Uint8Array;
  /** Columns that a pivot was chosen of. */
  readonly isGone: Uint8Array;
  /** Of every column the row that may best be its pivot, -1 for none. */
  readonly bestRows: Int32Array;
  /** How much its elimination may fill in. */
  readonly costs: Float64Array;
  /** Its square against the greatest of its column. */
  readonly shares: Float64Array;
  /** Columns that have changed since their best was sought. */
  readonly stale: Uint8Array;
  /** Room for a row laid out by columns; -1 where it has nothing. */
  readonly place: Int32Array;
}

function scatter(
  { size, rows, columns }: Pattern,
  re: Float64Array,
  im: Float64Array,
  kept: readonly number[],
): Work {
  const lines = (): Line[] => Array.from({ length: size }, () => ({ at: [], slots: [] }));
  const isKept = new Uint8Array(size);
  for (const row of kept) isKept[row] = 1;
  const work: Work = {
    rows: lines(),
    columns: lines(),
    valuesRe: withRoom(re.subarray(0, rows.length), 2 * rows.length),
    valuesIm: withRoom(im.subarray(0, rows.length), 2 * rows.length),
    slots: rows.length,
    isKept,
    isGone: isKept.slice(),
    bestRows: new Int32Array(size).fill(-1),
    costs: new Float64Array(size),
    shares: new Float64Array(size),
    stale: new Uint8Array(size).fill(1),
    place: new Int32Array(size).fill(-1),
  };
  for (let slot = 0; slot < rows.length; slot++) {
    const [row, column] = [rows[slot] as number, columns[slot] as number];
    put(work.rows[row] as Line, column, slot);
    put(work.columns[column] as Line, row, slot);
  }
  return work;
}

function withRoom(values: Float64Array, room: number): Float64Array {
  const wider = new Float64Array(room);
  wider.set(values);
  return wider;
}

function roomForValues(work: Work, more: number): void {
  if (work.slots + more <= work.valuesRe.length) return;
  const room = 2 * (work.slots + more);
  work.valuesRe = withRoom(work.valuesRe, room);
  work.valuesIm = withRoom(work.valuesIm, room);
}

/** Of every column's best the one that fills in least, of like ones the greatest; -1 for none. */
function choose(work: Work): number {
  const { bestRows, costs, shares, stale, isGone } = work;
  let best = -1;
  let cost = Number.POSITIVE_INFINITY;
  let share = 0;
  for (let column = 0; column < isGone.length; column++) {
    if (isGone[column]) continue;
    if (stale[column]) {
      seekBest(work, column);
      stale[column] = 0;
    }
    if (bestRows[column] === -1) continue;
    const own = costs[column] as number;
    if (own > cost || (own === cost && (shares[column] as number) <= share)) continue;
    best = column;
    cost = own;
    share = shares[column] as number;
  }
  return best;
}

function squareAt(valuesRe: Float64Array, valuesIm: Float64Array, slot: number): number {
  const re = valuesRe[slot] as number;
  const im = valuesIm[slot] as number;
  return re * re + im * im;
}

/** Seeks a column's best: of the rows that are not small in it the one that fills in least. */
function seekBest(work: Work, column: number): void {
  const { rows, columns, valuesRe, valuesIm, isKept, bestRows, costs, shares } = work;
  const { at, slots } = columns[column] as Line;
  bestRows[column] = -1;
  let most = 0;
  for (let each = 0; each < at.length; each++)
    if (!isKept[at[each] as number])
      most = Math.max(most, squareAt(valuesRe, valuesIm, slots[each] as number));
  if (!(most > 0) || !Number.isFinite(most)) return;
  let least = Number.POSITIVE_INFINITY;
  let greatest = 0;
  for (let each = 0; each < at.length; each++) {
    const row = at[each] as number;
    if (isKept[row]) continue;
    const share = squareAt(valuesRe, valuesIm, slots[each] as number) / most;
    if (!(share >= THRESHOLD * THRESHOLD)) continue;
    const cost = ((rows[row] as Line).at.length - 1) * (at.length - 1);
    if (cost > least || (cost === least && share <= greatest)) continue;
    bestRows[column] = row;
    least = cost;
    greatest = share;
  }
  costs[column] = least;
  shares[column] = greatest;
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
