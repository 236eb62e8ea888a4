import type { EliminationPlan } from './elimination.ts';

/**
 * Where the coefficient of one node's volts in another node's equation is kept, in an array of
 * twice `plan.slots`.
 *
 * @param slot of the pair, from the plan @param row whose equation @param column whose volts
 */
export function coefficientAt(slot: number, row: number, column: number): number {
  return 2 * slot + (row < column ? 0 : 1);
}

/** Pivots smaller than this share of their row are taken as this share. */
const LEAST_PIVOT = 1e-14;

/**
 * Factors a network whose nodes do not act on each other evenly, as tubes make it: the
 * coefficient of b's volts in a's equation need not be that of a's in b's.
 *
 * As currents depend on differences of volts only, each equation's coefficients sum to zero. The
 * one on the diagonal is therefore never kept: it is the sum of the others with the sign changed,
 * taken anew when its node's turn comes. In this way a leak of megohms beside a wire of
 * microhms is not lost in a difference (W. Grassmann, M. Taksar, D. Heyman, "Regenerative
 * analysis and steady state distributions for Markov chains", Operations Research 33, 1985).
 *
 * @param coefficients by `coefficientAt`; overwritten with the factors.
 * @param pivots one for every place of the plan's order; written.
 */
export function factorDirected(
  plan: EliminationPlan,
  coefficients: Float64Array,
  pivots: Float64Array,
): void {
  const { order, neighboursFrom, neighbour, neighbourSlot, pairSlot } = plan;
  let pair = 0;
  for (let place = 0; place < order.length; place++) {
    const node = order[place] as number;
    const from = neighboursFrom[place] as number;
    const to = neighboursFrom[place + 1] as number;
    let sum = 0;
    let most = 0;
    for (let i = from; i < to; i++) {
      const other = neighbour[i] as number;
      const value = coefficients[
        2 * (neighbourSlot[i] as number) + (node < other ? 0 : 1)
      ] as number;
      sum -= value;
      if (Math.abs(value) > most) most = Math.abs(value);
    }
    if (Math.abs(sum) < LEAST_PIVOT * most) sum = LEAST_PIVOT * most;
    pivots[place] = sum;
    for (let i = from; i < to; i++) {
      const a = neighbour[i] as number;
      const slotA = 2 * (neighbourSlot[i] as number);
      const rowA = coefficients[slotA + (node < a ? 0 : 1)] as number;
      const columnA = coefficients[slotA + (node < a ? 1 : 0)] as number;
      for (let j = i + 1; j < to; j++) {
        const b = neighbour[j] as number;
        const slotB = 2 * (neighbourSlot[j] as number);
        const rowB = coefficients[slotB + (node < b ? 0 : 1)] as number;
        const columnB = coefficients[slotB + (node < b ? 1 : 0)] as number;
        const slot = 2 * (pairSlot[pair++] as number);
        const ab = slot + (a < b ? 0 : 1);
        const ba = slot + (a < b ? 1 : 0);
        if (columnA !== 0 && rowB !== 0)
          coefficients[ab] = (coefficients[ab] as number) - (columnA / sum) * rowB;
        if (columnB !== 0 && rowA !== 0)
          coefficients[ba] = (coefficients[ba] as number) - (columnB / sum) * rowA;
      }
    }
  }
}

/**
 * Solves a network that has been factored.
 *
 * @param right the right side of every node's equation; overwritten.
 * @param volts of every node; written. Nodes that the plan holds keep 0.
 */
export function solveDirected(
  plan: EliminationPlan,
  coefficients: Float64Array,
  pivots: Float64Array,
  right: Float64Array,
  volts: Float64Array,
): void {
  const { order, neighboursFrom, neighbour, neighbourSlot } = plan;
  for (let place = 0; place < order.length; place++) {
    const node = order[place] as number;
    const share = (right[node] as number) / (pivots[place] as number);
    if (share === 0) continue;
    const to = neighboursFrom[place + 1] as number;
    for (let i = neighboursFrom[place] as number; i < to; i++) {
      const other = neighbour[i] as number;
      const at = 2 * (neighbourSlot[i] as number) + (node < other ? 1 : 0);
      right[other] = (right[other] as number) - (coefficients[at] as number) * share;
    }
  }
  volts.fill(0);
  for (let place = order.length - 1; place >= 0; place--) {
    const node = order[place] as number;
    const from = neighboursFrom[place] as number;
    const to = neighboursFrom[place + 1] as number;
    const base = from < to ? (volts[neighbour[from] as number] as number) : 0;
    let sum = right[node] as number;
    for (let i = from + 1; i < to; i++) {
      const other = neighbour[i] as number;
      const at = 2 * (neighbourSlot[i] as number) + (node < other ? 0 : 1);
      sum -= (coefficients[at] as number) * ((volts[other] as number) - base);
    }
    volts[node] = base + sum / (pivots[place] as number);
  }
}
