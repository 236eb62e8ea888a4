import type { EliminationPlan } from './elimination-plan.ts';

/** Values of a matrix after elimination, with the reciprocals of its pivots. */
export interface Eliminated {
  readonly plan: EliminationPlan;
  /** Multipliers below the pivots and what is left right of them, by slot. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** One over each pivot, in order. */
  readonly inverseRe: Float64Array;
  readonly inverseIm: Float64Array;
  /** A right-hand side by row, which solving writes over. */
  readonly rightRe: Float64Array;
  readonly rightIm: Float64Array;
}

/** Room for a matrix of this plan; its first slots are the values of the matrix. */
export function roomFor(plan: EliminationPlan): Eliminated {
  const { slots, begins } = plan;
  return {
    plan,
    re: new Float64Array(slots),
    im: new Float64Array(slots),
    inverseRe: new Float64Array(begins.length),
    inverseIm: new Float64Array(begins.length),
    rightRe: new Float64Array(begins.length),
    rightIm: new Float64Array(begins.length),
  };
}

/** A multiplier beyond this: the pivots do not suit these values. Squared. */
const MOST_SQUARE = 1e10;

/**
 * Eliminates in place. False where a pivot is nothing, or so small against what stands below it
 * that accuracy would suffer: then new pivots are to be chosen.
 *
 * Needs the slots beyond those of the matrix to be zero.
 */
export function eliminate(room: Eliminated): boolean {
  const { plan, re, im, inverseRe, inverseIm } = room;
  const { steps, begins } = plan;
  const pivots = begins.length;
  let at = 0;
  for (let step = 0; step < pivots; step++) {
    const pivot = steps[at] as number;
    const below = steps[at + 1] as number;
    const right = steps[at + 2] as number;
    const rowAt = at + 3;
    at = rowAt + 2 * right;
    const pivotRe = re[pivot] as number;
    const pivotIm = im[pivot] as number;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    if (!(square > 1e-300 && square < 1e300)) return false;
    const oneRe = pivotRe / square;
    const oneIm = 0 - pivotIm / square;
    inverseRe[step] = oneRe;
    inverseIm[step] = oneIm;
    for (let row = 0; row < below; row++) {
      const cleared = steps[at + 1] as number;
      at += 2;
      const headRe = re[cleared] as number;
      const headIm = im[cleared] as number;
      if (headRe === 0 && headIm === 0) {
        at += right;
        continue;
      }
      const factorRe = headRe * oneRe - headIm * oneIm;
      const factorIm = headRe * oneIm + headIm * oneRe;
      if (factorRe * factorRe + factorIm * factorIm > MOST_SQUARE) return false;
      re[cleared] = factorRe;
      im[cleared] = factorIm;
      for (let column = 0; column < right; column++) {
        const of = steps[rowAt + 2 * column] as number;
        const target = steps[at + column] as number;
        const ofRe = re[of] as number;
        const ofIm = im[of] as number;
        re[target] = (re[target] as number) - (factorRe * ofRe - factorIm * ofIm);
        im[target] = (im[target] as number) - (factorRe * ofIm + factorIm * ofRe);
      }
      at += right;
    }
  }
  return true;
}

/**
 * Solves for the right-hand side that stands in the room, of a matrix of which nothing was kept.
 *
 * @param xRe real parts, that of column 0 in place 1 @param xIm imaginary parts
 */
export function substitute(room: Eliminated, xRe: Float64Array, xIm: Float64Array): void {
  const { plan, re, im, inverseRe, inverseIm, rightRe, rightIm } = room;
  const { steps, pivotRows, pivotColumns, begins } = plan;
  const pivots = begins.length;
  for (let step = 0; step < pivots; step++) {
    const begin = begins[step] as number;
    const below = steps[begin + 1] as number;
    const right = steps[begin + 2] as number;
    const row = pivotRows[step] as number;
    const headRe = rightRe[row] as number;
    const headIm = rightIm[row] as number;
    if (headRe === 0 && headIm === 0) continue;
    let at = begin + 3 + 2 * right;
    for (let other = 0; other < below; other++, at += 2 + right) {
      const target = steps[at] as number;
      const slot = steps[at + 1] as number;
      const factorRe = re[slot] as number;
      const factorIm = im[slot] as number;
      rightRe[target] = (rightRe[target] as number) - (factorRe * headRe - factorIm * headIm);
      rightIm[target] = (rightIm[target] as number) - (factorRe * headIm + factorIm * headRe);
    }
  }
  for (let step = pivots - 1; step >= 0; step--) {
    const begin = begins[step] as number;
    const right = steps[begin + 2] as number;
    const row = pivotRows[step] as number;
    let sumRe = rightRe[row] as number;
    let sumIm = rightIm[row] as number;
    for (let column = 0, at = begin + 3; column < right; column++, at += 2) {
      const slot = steps[at] as number;
      const of = steps[at + 1] as number;
      const knownRe = xRe[of + 1] as number;
      const knownIm = xIm[of + 1] as number;
      sumRe -= (re[slot] as number) * knownRe - (im[slot] as number) * knownIm;
      sumIm -= (re[slot] as number) * knownIm + (im[slot] as number) * knownRe;
    }
    const oneRe = inverseRe[step] as number;
    const oneIm = inverseIm[step] as number;
    const column = (pivotColumns[step] as number) + 1;
    xRe[column] = sumRe * oneRe - sumIm * oneIm;
    xIm[column] = sumRe * oneIm + sumIm * oneRe;
  }
}

/** A determinant by the logarithm of its size and by its angle, −π to π. */
export interface Determinant {
  readonly logarithm: number;
  readonly angle: number;
}

/**
 * The determinant of the matrix that was eliminated: the product of its pivots. Where rows were
 * kept it is to be multiplied by the determinant of what is left of them.
 */
export function determinantOf({ plan, inverseRe, inverseIm }: Eliminated): Determinant {
  let re = plan.isOdd ? -1 : 1;
  let im = 0;
  let logarithm = 0;
  for (let step = 0; step < inverseRe.length; step++) {
    const oneRe = inverseRe[step] as number;
    const oneIm = inverseIm[step] as number;
    const next = re * oneRe - im * oneIm;
    im = re * oneIm + im * oneRe;
    re = next;
    const size = Math.abs(re) + Math.abs(im);
    if (size > 1e100 || size < 1e-100) {
      logarithm -= Math.log(size);
      re /= size;
      im /= size;
    }
  }
  // What was multiplied up are the reciprocals.
  return {
    logarithm: logarithm - 0.5 * Math.log(re * re + im * im),
    angle: 0 - Math.atan2(im, re),
  };
}
