import { areFinite, arePositive } from './domain.ts';
import { leastPlace } from './golden-section.ts';
import { relativeExcess } from './relative-excess.ts';
import { threeHalvesAlongFilament } from './three-halves.ts';
import { type Triode, triodeState } from './triode.ts';

/** One published working point of a triode. */
export interface TriodePoint {
  /** Plate volts from F−, above 0. */
  readonly plate: number;
  /** Grid volts from F−. */
  readonly grid: number;
  /** Plate current, amperes, above 0; left out where it was not published. */
  readonly current?: number;
  /** gₘ, siemens, above 0; left out where it was not published. */
  readonly transconductance?: number;
}

/** How far the fitted law is from one published point, as shares: 0.05 is 5 % high. */
export interface TriodeResidual {
  readonly current?: number;
  readonly transconductance?: number;
}

/** A triode fitted to published points. */
export interface TriodeFit {
  readonly triode: Triode;
  /** One for each point, in the points' order. */
  readonly residuals: readonly TriodeResidual[];
}

/** What one published current, and one published transconductance, count in the sum. */
const CURRENT_WEIGHT = 1;
const TRANSCONDUCTANCE_WEIGHT = 0.5;

/** Range of the offset searched, volts above the value that just cuts the weakest point off. */
const OFFSET_RANGE = 30;

/**
 * Perveance and offset of a triode from its published points, the amplification factor given.
 *
 * Least sum of squares of the logarithms of law over print, currents counting 1 and
 * transconductances ½ each. One quantity alone cannot give both: then the offset is taken as 0.
 *
 * @param mu published amplification factor, above 0
 * @param filament volts from F− to F+ at which the points hold; 0 for an indirectly heated
 * cathode or volts from the middle of an alternating-current filament
 *
 * Undefined when there is nothing to fit, or when a point says that a tube conducts where the
 * law cannot. Fits of types of the 1920s: currents mostly within 5 %, transconductances within
 * 5 %. Points of different years may differ by 25 %; fit each year by itself.
 * Source: the law of C. D. Child and I. Langmuir; method of least squares.
 */
export function fitTriode(
  points: readonly TriodePoint[],
  mu: number,
  filament: number,
): TriodeFit | undefined {
  const terms = points.flatMap(termsOf);
  if (!arePositive(mu) || !areFinite(filament) || terms.length === 0) {
    return undefined;
  }
  if (!points.every(({ plate, grid }) => areFinite(plate, grid))) {
    return undefined;
  }
  const spread = filament * (1 + 1 / mu);
  const ratiosAt = (offset: number) =>
    terms.map(({ grid, plate, kind, published, weight }) => {
      const law = threeHalvesAlongFilament(grid + plate / mu + offset, spread);
      return { weight, ratio: Math.log((kind === 'current' ? law.value : law.slope) / published) };
    });
  const weights = terms.reduce((sum, { weight }) => sum + weight, 0);
  const meanAt = (ratios: ReturnType<typeof ratiosAt>) =>
    ratios.reduce((sum, { ratio, weight }) => sum + ratio * weight, 0) / weights;
  const costAt = (offset: number) => {
    const ratios = ratiosAt(offset);
    const mean = meanAt(ratios);
    return ratios.reduce((sum, { ratio, weight }) => sum + weight * (ratio - mean) ** 2, 0);
  };
  const cutOff = Math.max(
    ...points.map(({ grid, plate }) => -(grid + plate / mu) + Math.min(0, spread)),
  );
  const offset = terms.length === 1 ? 0 : leastPlace(cutOff, cutOff + OFFSET_RANGE, 300, costAt);
  const perveance = Math.exp(-meanAt(ratiosAt(offset)));
  if (!arePositive(perveance) || !Number.isFinite(costAt(offset))) {
    return undefined;
  }
  const triode = { perveance, mu, offset };
  return { triode, residuals: points.map((point) => residualOf(triode, point, filament)) };
}

interface Term extends TriodePoint {
  readonly kind: 'current' | 'transconductance';
  readonly published: number;
  readonly weight: number;
}

function termsOf(point: TriodePoint): Term[] {
  const terms: Term[] = [];
  const { current, transconductance } = point;
  if (current !== undefined && arePositive(current)) {
    terms.push({ ...point, kind: 'current', published: current, weight: CURRENT_WEIGHT });
  }
  if (transconductance !== undefined && arePositive(transconductance)) {
    const weight = TRANSCONDUCTANCE_WEIGHT;
    terms.push({ ...point, kind: 'transconductance', published: transconductance, weight });
  }
  return terms;
}

function residualOf(triode: Triode, point: TriodePoint, filament: number): TriodeResidual {
  const state = triodeState(triode, { ...point, filament });
  const current = relativeExcess(state?.current, point.current);
  const transconductance = relativeExcess(state?.transconductance, point.transconductance);
  return {
    ...(current === undefined ? {} : { current }),
    ...(transconductance === undefined ? {} : { transconductance }),
  };
}
