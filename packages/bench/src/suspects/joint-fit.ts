import { countedOhms, type Foreseen } from './foreseen.ts';

/** How well readings agree with what was foreseen of a set in a certain state. */
export interface JointFit {
  /** The logarithm of their probability density. */
  readonly log: number;
  /** By reading, whether it was taken as a slip because the others and the fault speak against it. */
  readonly slips: readonly boolean[];
  /** The readings that count as they are, in their order, and what the next one follows from. */
  readonly kept: readonly Foreseen[];
  /** Inverse of their covariance, row by row, and that times what they are off by. */
  readonly precision: Float64Array;
  readonly pull: Float64Array;
}

/** A reading as it counts: volts, amperes, the logarithm of ohms, endless for open. */
export interface Counted {
  readonly value: number;
  /** Over how wide a field a slip of the pencil may fall, in the same. */
  readonly field: number;
}

/** One reading of so many is a slip: a wrong scale, a clip that does not bite. Common practice. */
const SLIP = 0.015;
/** Of the slips so many are near the truth, within this many times the usual spread. */
const NEAR_SLIPS = 0.8;
const NEAR_TIMES = 5;
/** An ohmmeter tells open from not open, but for a slip. */
const OPEN_SLIP = 0.01;
/** More readings than this at once are taken as several lots that know nothing of one another. */
const LOT = 60;

const ROOT = 0.5 * Math.log(2 * Math.PI);

/** Ohms as a slip of the pencil has them: anything an ohmmeter can show. */
export const OHMS_FIELD = countedOhms(9.9e6) - countedOhms(0);

/** How readings agree with what is foreseen; a reading that nothing is foreseen of may be anything. */
export function jointFit(
  readings: readonly Counted[],
  foreseen: readonly (Foreseen | undefined)[],
): JointFit {
  const slips = readings.map(() => false);
  const linear: number[] = [];
  let log = 0;
  for (const [index, { value, field }] of readings.entries()) {
    const each = foreseen[index];
    if (!each) {
      log -= Math.log(field);
      continue;
    }
    const isOpen = value === Number.POSITIVE_INFINITY;
    const isOpenForeseen = each.mean === Number.POSITIVE_INFINITY;
    if (!isOpen && !isOpenForeseen) linear.push(index);
    else if (isOpen === isOpenForeseen) log += Math.log(1 - OPEN_SLIP);
    else {
      log += Math.log(OPEN_SLIP) - (isOpen ? 0 : Math.log(field));
      slips[index] = true;
    }
  }
  if (linear.length <= LOT) {
    const lot = lotFit(readings, foreseen, linear);
    for (const index of lot.dropped) slips[index] = true;
    return { ...lot, log: log + lot.log, slips };
  }
  for (let from = 0; from < linear.length; from += LOT) {
    const lot = lotFit(readings, foreseen, linear.slice(from, from + LOT));
    for (const index of lot.dropped) slips[index] = true;
    log += lot.log;
  }
  return { log, slips, kept: [], precision: new Float64Array(), pull: new Float64Array() };
}

interface LotFit extends Omit<JointFit, 'slips'> {
  readonly dropped: readonly number[];
}

function lotFit(
  readings: readonly Counted[],
  foreseen: readonly (Foreseen | undefined)[],
  all: readonly number[],
): LotFit {
  let inside = [...all];
  const dropped: number[] = [];
  let log = 0;
  for (;;) {
    const kept = inside.map((index) => foreseen[index] as Foreseen);
    const off = Float64Array.from(
      inside,
      (index, at) => (readings[index] as Counted).value - (kept[at] as Foreseen).mean,
    );
    const { precision, logDeterminant } = invertedCovariance(kept);
    const count = inside.length;
    const pull = new Float64Array(count);
    let square = 0;
    for (let row = 0; row < count; row++) {
      let sum = 0;
      for (let column = 0; column < count; column++)
        sum += (precision[row * count + column] as number) * (off[column] as number);
      pull[row] = sum;
      square += sum * (off[row] as number);
    }
    let worst = -1;
    let gain = 0;
    for (let at = 0; at < count; at++) {
      const tight = precision[at * count + at] as number;
      const z = (pull[at] as number) / tight;
      const byOthers = -0.5 * z * z * tight - ROOT + 0.5 * Math.log(tight) + Math.log(1 - SLIP);
      const index = inside[at] as number;
      const slip = slipLog(readings[index] as Counted, kept[at] as Foreseen);
      if (slip - byOthers > gain) [worst, gain] = [at, slip - byOthers];
    }
    if (worst < 0)
      return {
        log: log - 0.5 * square - 0.5 * logDeterminant - count * ROOT + count * Math.log(1 - SLIP),
        dropped,
        kept,
        precision,
        pull,
      };
    const index = inside[worst] as number;
    log += slipLog(readings[index] as Counted, foreseen[index] as Foreseen);
    dropped.push(index);
    inside = inside.filter((_, at) => at !== worst);
  }
}

/** The logarithm of the density with which a reading is a slip and shows this. */
export function slipLog({ value, field }: Counted, { mean, slopes, own }: Foreseen): number {
  const spread = NEAR_TIMES * Math.sqrt(varianceOf(slopes, own));
  const z = (value - mean) / spread;
  const near = Math.exp(-0.5 * z * z - ROOT - Math.log(spread));
  return Math.log(SLIP * (NEAR_SLIPS * near + (1 - NEAR_SLIPS) / field));
}

export function varianceOf(slopes: Float64Array, own: number): number {
  let sum = own;
  for (const slope of slopes) sum += slope * slope;
  return sum;
}

/** What two readings deviate together; how far a fault has gone only one of two causes may have. */
export function sharedVariance(one: Float64Array, other: Float64Array): number {
  const count = Math.min(one.length, other.length);
  let sum = 0;
  for (let at = 0; at < count; at++) sum += (one[at] as number) * (other[at] as number);
  return sum;
}

/** The inverse of a covariance, by Cholesky's factors. */
function invertedCovariance(kept: readonly Foreseen[]): {
  readonly precision: Float64Array;
  readonly logDeterminant: number;
} {
  const count = kept.length;
  const factor = new Float64Array(count * count);
  let logDeterminant = 0;
  for (let row = 0; row < count; row++) {
    const { slopes, own } = kept[row] as Foreseen;
    for (let column = 0; column <= row; column++) {
      const other = kept[column] as Foreseen;
      let sum = sharedVariance(slopes, other.slopes) + (row === column ? own : 0);
      for (let at = 0; at < column; at++)
        sum -= (factor[row * count + at] as number) * (factor[column * count + at] as number);
      if (row !== column) {
        factor[row * count + column] = sum / (factor[column * count + column] as number);
        continue;
      }
      // What a reading has for itself is never less than its own variance.
      const pivot = Math.max(sum, own, Number.MIN_VALUE);
      factor[row * count + row] = Math.sqrt(pivot);
      logDeterminant += Math.log(pivot);
    }
  }
  const inverse = new Float64Array(count * count);
  for (let column = 0; column < count; column++) {
    for (let row = column; row < count; row++) {
      let sum = row === column ? 1 : 0;
      for (let at = column; at < row; at++)
        sum -= (factor[row * count + at] as number) * (inverse[at * count + column] as number);
      inverse[row * count + column] = sum / (factor[row * count + row] as number);
    }
  }
  const precision = new Float64Array(count * count);
  for (let row = 0; row < count; row++)
    for (let column = 0; column <= row; column++) {
      let sum = 0;
      for (let at = row; at < count; at++)
        sum += (inverse[at * count + row] as number) * (inverse[at * count + column] as number);
      precision[row * count + column] = sum;
      precision[column * count + row] = sum;
    }
  return { precision, logDeterminant };
}
