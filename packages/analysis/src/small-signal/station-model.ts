import { valuesAt } from './fitted-path.ts';
import type { FittedPlane } from './fitted-plane.ts';
import { fitPolynomials, type Polynomials, places, SAMPLES } from './polynomial-fit.ts';
import type { LogSlopeAt } from './root-search.ts';
import { slopingDeterminant, smallMatrix } from './small-matrix.ts';

/**
 * What is left of a reduced network about one station, as polynomials of the logarithm of the
 * complex frequency: good for the modes of its circuits, on the axis and near it.
 */
export interface StationModel {
  readonly size: number;
  /** Logarithm of radians per second in the middle. */
  readonly middle: number;
  readonly reach: number;
  readonly polynomials: Polynomials;
}

/**
 * How far a model reaches to either side, in the logarithm of the frequency: the dials' way, and if
 * a circuit beside the tuned ones comes too near for that, what their own modes need.
 */
const REACHES: readonly number[] = [0.2, 0.12, 0.07];

/** How far off an entry may be, as a share of its row's and column's own. */
const TOLERANCE = 1e-6;

/** The matrix that is left at a frequency in radians per second, from `start` on, or false. */
export type MatrixAt = (radians: number, matrices: Float64Array, start: number) => boolean;

/** The matrices of a fitted network. */
export function matricesIn({ axis, network }: FittedPlane): MatrixAt {
  const matrix = axis.values.subarray(0, 2 * network.size * network.size);
  return (radians, matrices, start) => {
    if (!valuesAt(axis, Math.log(radians))) return false;
    matrices.set(matrix, start);
    return true;
  };
}

/**
 * The model about a frequency in hertz; undefined where no polynomial follows the network.
 *
 * @param size unknowns that are left
 */
export function stationModel(
  size: number,
  matrixAt: MatrixAt,
  frequency: number,
): StationModel | undefined {
  const middle = Math.log(2 * Math.PI * frequency);
  const count = 2 * size * size;
  const samples = new Float64Array(SAMPLES * count);
  for (const reach of REACHES) {
    const isKnown = places.every((place, row) =>
      matrixAt(Math.exp(middle + reach * place), samples, row * count),
    );
    if (!isKnown) return undefined;
    const polynomials = fitPolynomials(samples, count, tolerancesOf(size, samples));
    if (polynomials) return { size, middle, reach, polynomials };
  }
  return undefined;
}

/** What every entry may be off by: a share of its row's and column's greatest. */
function tolerancesOf(size: number, samples: Float64Array): Float64Array {
  const count = 2 * size * size;
  const own = new Float64Array(size);
  for (let row = 0; row < SAMPLES; row++) {
    for (let at = 0; at < size; at++) {
      const diagonal = row * count + 2 * (at * size + at);
      const most = Math.hypot(samples[diagonal] as number, samples[diagonal + 1] as number);
      own[at] = Math.max(own[at] as number, most);
    }
  }
  return Float64Array.from({ length: count }, (_, each) => {
    const entry = each >> 1;
    const row = own[Math.floor(entry / size)] as number;
    return TOLERANCE * Math.sqrt(row * (own[entry % size] as number));
  });
}

/** The slope of the determinant of what is left, with these capacities added to it. */
export function modelSlope(
  { size, middle, reach, polynomials }: StationModel,
  added: Float64Array,
): LogSlopeAt {
  const { degree, coefficients } = polynomials;
  const matrix = smallMatrix(size);
  const { values, slopes } = matrix;
  const count = 2 * size * size;
  return ({ growth, radians }) => {
    const square = growth * growth + radians * radians;
    const x = (0.5 * Math.log(square) - middle) / reach;
    const y = 0 - Math.atan2(growth, radians) / reach;
    const top = degree * count;
    for (let each = 0; each < count; each++) {
      values[each] = coefficients[top + each] as number;
      slopes[each] = 0;
    }
    for (let row = top - count; row >= 0; row -= count) {
      for (let re = 0; re < count; re += 2) {
        const valueRe = values[re] as number;
        const valueIm = values[re + 1] as number;
        const slopeRe = slopes[re] as number;
        const slopeIm = slopes[re + 1] as number;
        slopes[re] = slopeRe * x - slopeIm * y + valueRe;
        slopes[re + 1] = slopeRe * y + slopeIm * x + valueIm;
        values[re] = valueRe * x - valueIm * y + (coefficients[row + re] as number);
        values[re + 1] = valueRe * y + valueIm * x + (coefficients[row + re + 1] as number);
      }
    }
    for (let entry = 0, re = 0; entry < added.length; entry++, re += 2) {
      const each = added[entry] as number;
      values[re] = (values[re] as number) + growth * each;
      values[re + 1] = (values[re + 1] as number) + radians * each;
      slopes[re] = (slopes[re] as number) / reach + growth * each;
      slopes[re + 1] = (slopes[re + 1] as number) / reach + radians * each;
    }
    const left = slopingDeterminant(matrix);
    if (!left) return undefined;
    // From the logarithm of the frequency to the frequency itself.
    return {
      re: (left.slopeRe * growth + left.slopeIm * radians) / square,
      im: (left.slopeIm * growth - left.slopeRe * radians) / square,
    };
  };
}
