import { areFinite, arePositive } from './domain.ts';
import { leastPlace } from './golden-section.ts';
import { relativeExcess } from './relative-excess.ts';
import { type ScreenGridTube, screenGridState } from './screen-grid.ts';
import { threeHalvesAlongFilament } from './three-halves.ts';

/** One published working point of a screen-grid tube; what was not published is left out. */
export interface ScreenGridPoint {
  /** Plate volts from F−, above 0. */
  readonly plate: number;
  /** Screen volts from F−, above 0. */
  readonly screen: number;
  /** Control-grid volts from F−. */
  readonly grid: number;
  /** Plate current, amperes, above 0. */
  readonly current: number;
  /** Screen current, amperes, above 0. */
  readonly screenCurrent?: number;
  /** gₘ, siemens, above 0. */
  readonly transconductance?: number;
  /** rₚ, ohms, above 0. */
  readonly plateResistance?: number;
}

/** How far the fitted law is from one published point, as shares: 0.05 is 5 % high. */
export interface ScreenGridResidual {
  readonly current?: number;
  readonly screenCurrent?: number;
  readonly transconductance?: number;
  readonly plateResistance?: number;
}

/** A screen-grid tube fitted to published points. */
export interface ScreenGridFit {
  readonly tube: ScreenGridTube;
  /** One for each point, in the points' order. */
  readonly residuals: readonly ScreenGridResidual[];
}

/** What a published transconductance counts in the sum, a current counting 1. */
const TRANSCONDUCTANCE_WEIGHT = 0.5;
/** Volts within which the offset is expected about its likely value. */
const OFFSET_SPREAD = 2;
/** How far a volt's worth of that counts against the fit. */
const OFFSET_WEIGHT = 1e-3;
/** Knee of a tube whose plate resistance was not published, volts; from memory. */
const USUAL_KNEE = 20;

/**
 * The five figures of a screen-grid tube or pentode from its published points.
 *
 * Knee and plate share from plate resistances and screen currents, each the mean of its
 * logarithm; then perveance, screen factor and offset by least squares of logarithms, plate
 * currents counting 1 and transconductances ½. The offset is drawn lightly towards 1 volt, as
 * points at one screen voltage cannot tell it from the screen factor.
 *
 * @param filament volts from F− to F+ at which the points hold; 0 for an indirectly heated cathode
 *
 * Undefined when no point can be used. Types of 1927 to 1931: plate current within 5 %, plate
 * resistance within 20 %.
 * Source: the law of `screenGridState`; method of least squares.
 */
export function fitScreenGrid(
  points: readonly ScreenGridPoint[],
  filament: number,
): ScreenGridFit | undefined {
  const usable = points.every(
    ({ plate, screen, grid, current }) => arePositive(plate, screen, current) && areFinite(grid),
  );
  if (points.length === 0 || !usable || !areFinite(filament)) {
    return undefined;
  }
  const kneeVoltage = geometricMean(points.flatMap(kneeOf)) ?? USUAL_KNEE;
  const shareNeeded = geometricMean(points.flatMap((point) => shareOf(point, kneeVoltage)));
  const plateShare = Math.min(1, shareNeeded ?? 1);
  const cost = (screenMu: number, offset: number) =>
    costOf(points, filament, { screenMu, offset, kneeVoltage, plateShare });
  const bestOffset = (screenMu: number) =>
    leastPlace(-5, 10, 60, (offset) => cost(screenMu, offset).sum);
  const screenMu = Math.exp(
    leastPlace(Math.log(2), Math.log(40), 40, (logMu) => {
      const mu = Math.exp(logMu);
      return cost(mu, bestOffset(mu)).sum;
    }),
  );
  const offset = bestOffset(screenMu);
  const { perveance } = cost(screenMu, offset);
  if (!arePositive(perveance, screenMu, kneeVoltage, plateShare) || !areFinite(offset)) {
    return undefined;
  }
  const tube = { perveance, screenMu, offset, kneeVoltage, plateShare };
  return { tube, residuals: points.map((point) => residualOf(tube, point, filament)) };
}

function geometricMean(values: readonly number[]): number | undefined {
  return values.length === 0
    ? undefined
    : Math.exp(values.reduce((sum, value) => sum + Math.log(value), 0) / values.length);
}

/** From 1/(rₚ Ip) = Vk / (Ep (Ep + Vk)). */
function kneeOf({ plate, current, plateResistance }: ScreenGridPoint): number[] {
  if (plateResistance === undefined || !arePositive(plateResistance)) {
    return [];
  }
  const rise = plate / (plateResistance * current);
  return rise < 1 ? [(rise * plate) / (1 - rise)] : [];
}

function shareOf({ plate, current, screenCurrent }: ScreenGridPoint, knee: number): number[] {
  return screenCurrent === undefined || !arePositive(screenCurrent)
    ? []
    : [((current / (current + screenCurrent)) * (plate + knee)) / plate];
}

/** Sum of weighted squares at the best perveance, which it finds on the way. */
function costOf(
  points: readonly ScreenGridPoint[],
  filament: number,
  shape: Omit<ScreenGridTube, 'perveance'>,
): { readonly sum: number; readonly perveance: number } {
  const { screenMu, offset, kneeVoltage, plateShare } = shape;
  const terms = points.flatMap((point) => {
    const { plate, screen, grid, current, transconductance } = point;
    const effective = grid + screen / screenMu + offset;
    const law = threeHalvesAlongFilament(effective, filament * (1 + 1 / screenMu));
    const share = (plateShare * plate) / (plate + kneeVoltage);
    const ofCurrent = { weight: 1, ratio: Math.log((law.value * share) / current) };
    if (transconductance === undefined || !arePositive(transconductance)) {
      return [ofCurrent];
    }
    const ratio = Math.log((law.slope * share) / transconductance);
    return [ofCurrent, { weight: TRANSCONDUCTANCE_WEIGHT, ratio }];
  });
  const weights = terms.reduce((sum, { weight }) => sum + weight, 0);
  const mean = terms.reduce((sum, { weight, ratio }) => sum + weight * ratio, 0) / weights;
  const squares = terms.reduce((sum, { weight, ratio }) => sum + weight * (ratio - mean) ** 2, 0);
  const pull = OFFSET_WEIGHT * ((offset - 1) / OFFSET_SPREAD) ** 2;
  return { sum: squares + pull, perveance: Math.exp(-mean) };
}

function residualOf(
  tube: ScreenGridTube,
  point: ScreenGridPoint,
  filament: number,
): ScreenGridResidual {
  const state = screenGridState(tube, { ...point, filament });
  const current = relativeExcess(state?.plate.current, point.current);
  const screenCurrent = relativeExcess(state?.screen.current, point.screenCurrent);
  const transconductance = relativeExcess(state?.plate.byGrid, point.transconductance);
  const conductance = state?.plate.byPlate ?? 0;
  const plateResistance =
    conductance > 0 ? relativeExcess(1 / conductance, point.plateResistance) : undefined;
  return {
    ...(current === undefined ? {} : { current }),
    ...(screenCurrent === undefined ? {} : { screenCurrent }),
    ...(transconductance === undefined ? {} : { transconductance }),
    ...(plateResistance === undefined ? {} : { plateResistance }),
  };
}
