/** Polynomials of one variable, -1 to 1, for many functions at once; powers rising. */
export interface Polynomials {
  readonly degree: number;
  /** Of functions. */
  readonly count: number;
  /** All functions' coefficients of the lowest power, then those of the next. */
  readonly coefficients: Float64Array;
}

/** Samples that a fit is made from, an even number: enough for a degree of one less. */
export const SAMPLES = 14;

/** Half of them: the others are their mirror images. */
const HALF = SAMPLES / 2;

/** Where they are to be taken, from -1 to 1, rising: the zeros of Chebyshev's polynomial. */
export const places: Float64Array = Float64Array.from(
  { length: SAMPLES },
  (_, at) => 0 - Math.cos((Math.PI * (at + 0.5)) / SAMPLES),
);

/** Share of a sample and its mirror image in every coefficient of Chebyshev's, row by row. */
const analysis: Float64Array = Float64Array.from({ length: SAMPLES * HALF }, (_, at) => {
  const order = Math.floor(at / HALF);
  const angle = Math.acos(places[at % HALF] as number);
  return ((order === 0 ? 1 : 2) / SAMPLES) * Math.cos(order * angle);
});

/** Coefficients of Chebyshev's polynomials by rising powers, row by row. */
const chebyshev: readonly (readonly number[])[] = chebyshevPowers(SAMPLES);

function chebyshevPowers(count: number): number[][] {
  const rows: number[][] = [[1], [0, 1]];
  while (rows.length < count) {
    const last = rows.at(-1) ?? [];
    const before = rows.at(-2) ?? [];
    rows.push(
      [0, ...last.map((each) => 2 * each)].map((each, power) => each - (before[power] ?? 0)),
    );
  }
  return rows;
}

/** What a fit needs while it is made. */
export interface FitRoom {
  readonly waves: Float64Array;
  readonly even: Float64Array;
  readonly odd: Float64Array;
}

/** Room for fits of so many functions. */
export function fitRoom(count: number): FitRoom {
  return {
    waves: new Float64Array(SAMPLES * count),
    even: new Float64Array(HALF * count),
    odd: new Float64Array(HALF * count),
  };
}

/** The last coefficients of a fit must be nothing to within the tolerance, as many as these. */
const CALM = 2;

/**
 * Fits polynomials to samples at the places, by interpolation at Chebyshev's points, cut off where
 * what follows is within the tolerance. Undefined where they do not settle: the functions are not
 * smooth enough for their degree.
 *
 * @param samples one row of all functions for every place @param count of functions
 * @param tolerances how far off each function's should be
 * @param bearable how far off it may be where rounding leaves no more of it than that
 * @param room for that many functions, where many fits are made
 */
export function fitPolynomials(
  samples: Float64Array,
  count: number,
  tolerances: Float64Array,
  bearable: Float64Array = tolerances,
  room: FitRoom = fitRoom(count),
): Polynomials | undefined {
  const { waves, even, odd } = room;
  waves.fill(0);
  mirror(samples, count, room);
  let degree = 0;
  for (let order = 0; order < SAMPLES; order++) {
    const row = order * count;
    const halves = order % 2 === 0 ? even : odd;
    for (let sample = 0; sample < HALF; sample++) {
      const share = analysis[order * HALF + sample] as number;
      const from = sample * count;
      for (let each = 0; each < count; each++)
        waves[row + each] = (waves[row + each] as number) + share * (halves[from + each] as number);
    }
    for (let each = 0; each < count; each++) {
      const size = Math.abs(waves[row + each] as number);
      if (size <= (tolerances[each] as number)) continue;
      degree = order;
      // Not even a number: nothing fits.
      if (!Number.isFinite(size)) return undefined;
      if (order >= SAMPLES - CALM && size > (bearable[each] as number)) return undefined;
      if (order < SAMPLES - CALM) break;
    }
  }
  const coefficients = new Float64Array((degree + 1) * count);
  for (let order = 0; order <= degree; order++) {
    for (const [power, factor] of (chebyshev[order] ?? []).entries()) {
      if (factor === 0) continue;
      for (let each = 0; each < count; each++)
        coefficients[power * count + each] =
          (coefficients[power * count + each] as number) +
          factor * (waves[order * count + each] as number);
    }
  }
  return { degree, count, coefficients };
}

/** Puts sums of the samples with their mirror images into the room, and differences. */
function mirror(samples: Float64Array, count: number, { even, odd }: FitRoom): void {
  for (let sample = 0; sample < HALF; sample++) {
    const from = sample * count;
    const image = (SAMPLES - 1 - sample) * count;
    for (let each = 0; each < count; each++) {
      const one = samples[from + each] as number;
      const other = samples[image + each] as number;
      even[from + each] = one + other;
      odd[from + each] = one - other;
    }
  }
}

/** Values of all polynomials at a place, by Horner's rule. */
export function polynomialValuesAt(
  { degree, count, coefficients }: Polynomials,
  place: number,
  values: Float64Array,
): void {
  const top = degree * count;
  for (let each = 0; each < count; each++) values[each] = coefficients[top + each] as number;
  for (let row = top - count; row >= 0; row -= count)
    for (let each = 0; each < count; each++)
      values[each] = (values[each] as number) * place + (coefficients[row + each] as number);
}

/** Values and slopes of the first so many polynomials at a place. */
export function polynomialsAt(
  { degree, count, coefficients }: Polynomials,
  place: number,
  many: number,
  values: Float64Array,
  slopes: Float64Array,
): void {
  const top = degree * count;
  for (let each = 0; each < many; each++) {
    values[each] = coefficients[top + each] as number;
    slopes[each] = 0;
  }
  for (let row = top - count; row >= 0; row -= count) {
    for (let each = 0; each < many; each++) {
      const value = values[each] as number;
      slopes[each] = (slopes[each] as number) * place + value;
      values[each] = value * place + (coefficients[row + each] as number);
    }
  }
}
