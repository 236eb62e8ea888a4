import {
  emissionState,
  gridState,
  limitedByEmission,
  screenGridState,
  triodeState,
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
  const { ratio, slope: ratioSlope } = emissionAt(law, filament);
  const drop = law.heated ? 0 : filament;

  const ofGrid = gridState(law.grid, grid);
  const liveliness = (2 * ratio) / (1 + ratio);
  const livelinessSlope = (2 * ratioSlope) / (1 + ratio) ** 2;
  into.grid = (ofGrid?.current ?? law.saturation) * liveliness;
  slopes[BY_GRID] = (ofGrid?.conductance ?? 0) * liveliness;
  slopes[BY_FILAMENT] = (ofGrid?.current ?? 0) * livelinessSlope;

  into.plate = 0;
  into.screen = 0;
  const saturation = law.saturation * ratio;
  const saturationSlope = law.saturation * ratioSlope;
  if (law.plate?.kind === 'triode') {
    const free = triodeState(law.plate.triode, { plate, grid, filament: drop });
    const held = limitedByEmission(free?.current ?? Number.MAX_VALUE, saturation);
    into.plate = held?.current ?? saturation;
    const slope = free ? (held?.slope ?? 0) : 0;
    slopes[4 + BY_GRID] = slope * (free?.transconductance ?? 0);
    slopes[4 + BY_PLATE] = slope * (free?.plateConductance ?? 0);
    slopes[4 + BY_FILAMENT] =
      (law.heated ? 0 : slope * (free?.filamentConductance ?? 0)) +
      (held?.saturationSlope ?? 0) * saturationSlope;
  } else if (law.plate?.kind === 'screen-grid') {
    const free = screenGridState(law.plate.tube, { plate, screen, grid, filament: drop });
    if (!free) return;
    const whole = free.plate.current + free.screen.current;
    const held = limitedByEmission(whole, saturation);
    const share = whole > 0 ? (held?.current ?? 0) / whole : 0;
    const slope = held?.slope ?? 0;
    const bySaturation = ((held?.saturationSlope ?? 0) * saturationSlope) / (whole || 1);
    into.plate = free.plate.current * share;
    into.screen = free.screen.current * share;
    for (const [row, electrode] of [free.plate, free.screen].entries()) {
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

/** Emission over that at the rated volts, and its slope by the filament's volts. */
function emissionAt(
  { cathode, filament }: TubeLaw,
  volts: number,
): { readonly ratio: number; readonly slope: number } {
  const over = Math.abs(volts) / filament.ratedVolts;
  const state = emissionState(cathode, over);
  return {
    ratio: state?.ratio ?? 0,
    slope: ((state?.slope ?? 0) / filament.ratedVolts) * Math.sign(volts),
  };
}
