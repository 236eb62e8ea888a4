import {
  emissionInto,
  gridInto,
  limitedByEmission,
  limitedInto,
  screenGridState,
  triodeInto,
} from '@setwright/physics';
import type { TubeLaw } from './tube-law.ts';

/** Columns of `TubeCurrents.slopes`: the volts that a current depends on. */
export const BY_GRID = 0;
export const BY_PLATE = 1;
export const BY_SCREEN = 2;
export const BY_FILAMENT = 3;

/** Currents into a tube's electrodes, amperes, and their slopes, siemens. */
export interface TubeCurrents {
  grid: number;
  plate: number;
  screen: number;
  /** Rows grid, plate, screen; columns by the volts of grid, plate, screen, filament. */
  readonly slopes: Float64Array;
}

/** Room for what one call works out before it is used up. */
const warmth = { ratio: 0, slope: 0 };
const ofGrid = { current: 0, conductance: 0, curvature: 0 };
const held = { current: 0, slope: 0, saturationSlope: 0 };
const free = {
  current: 0,
  transconductance: 0,
  plateConductance: 0,
  filamentConductance: 0,
  curvature: 0,
};

/** A place for currents to be written to. */
export function noTubeCurrents(): TubeCurrents {
  return { grid: 0, plate: 0, screen: 0, slopes: new Float64Array(12) };
}

/**
 * Currents into grid, plate and screen of a tube, with their slopes, written to `into`.
 *
 * @param filament volts of F+ above F−, of whatever sign; the others are from F− or the cathode.
 *
 * The filament's drop bends the law as well as its heat setting the emission. Grid current comes
 * and goes with the emission, 1 at the rated volts and at most 2. Where numbers are beyond
 * reckoning the emission is all that flows. Gives no NaN for finite volts.
 */
export function tubeCurrents(
  law: TubeLaw,
  grid: number,
  plate: number,
  screen: number,
  filament: number,
  into: TubeCurrents,
): void {
  const { slopes } = into;
  slopes.fill(0);
  const isWarm = emissionInto(law.cathode, Math.abs(filament) / law.filament.ratedVolts, warmth);
  const ratio = isWarm ? warmth.ratio : 0;
  const ratioSlope = isWarm ? (warmth.slope / law.filament.ratedVolts) * Math.sign(filament) : 0;
  const drop = law.heated ? 0 : filament;

  const isGridKnown = gridInto(law.grid, grid, ofGrid);
  const liveliness = (2 * ratio) / (1 + ratio);
  const livelinessSlope = (2 * ratioSlope) / ((1 + ratio) * (1 + ratio));
  into.grid = (isGridKnown ? ofGrid.current : law.saturation) * liveliness;
  slopes[BY_GRID] = isGridKnown ? ofGrid.conductance * liveliness : 0;
  slopes[BY_FILAMENT] = isGridKnown ? ofGrid.current * livelinessSlope : 0;

  into.plate = 0;
  into.screen = 0;
  const saturation = law.saturation * ratio;
  const saturationSlope = law.saturation * ratioSlope;
  if (law.plate?.kind === 'triode') {
    const endless = Number.POSITIVE_INFINITY;
    const isFree = triodeInto(law.plate.triode, plate, grid, drop, endless, free);
    const isHeld = limitedInto(isFree ? free.current : Number.MAX_VALUE, saturation, held);
    into.plate = isHeld ? held.current : saturation;
    if (isHeld && isFree) {
      slopes[4 + BY_GRID] = held.slope * free.transconductance;
      slopes[4 + BY_PLATE] = held.slope * free.plateConductance;
      if (!law.heated) slopes[4 + BY_FILAMENT] = held.slope * free.filamentConductance;
    }
    if (isHeld)
      slopes[4 + BY_FILAMENT] =
        (slopes[4 + BY_FILAMENT] as number) + held.saturationSlope * saturationSlope;
  } else if (law.plate?.kind === 'screen-grid') {
    const both = screenGridState(law.plate.tube, { plate, screen, grid, filament: drop });
    if (!both) return;
    const whole = both.plate.current + both.screen.current;
    const limited = limitedByEmission(whole, saturation);
    const share = whole > 0 ? (limited?.current ?? 0) / whole : 0;
    const slope = limited?.slope ?? 0;
    const bySaturation = ((limited?.saturationSlope ?? 0) * saturationSlope) / (whole || 1);
    into.plate = both.plate.current * share;
    into.screen = both.screen.current * share;
    for (const [row, electrode] of [both.plate, both.screen].entries()) {
      const at = 4 * (row + 1);
      slopes[at + BY_GRID] = slope * electrode.byGrid;
      slopes[at + BY_PLATE] = share * electrode.byPlate;
      slopes[at + BY_SCREEN] = slope * electrode.byScreen;
      slopes[at + BY_FILAMENT] =
        (law.heated ? 0 : slope * electrode.byFilament) + bySaturation * electrode.current;
    }
  }
  if (law.gas !== undefined) addIons(law.gas, into);
}

/** Ions of a gassy tube go to its grid, the more the more its plate draws. */
function addIons(gas: number, into: TubeCurrents): void {
  const { slopes } = into;
  into.grid -= gas * into.plate;
  for (let by = 0; by < 4; by++)
    slopes[by] = (slopes[by] as number) - gas * (slopes[4 + by] as number);
}
