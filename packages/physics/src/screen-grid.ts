import { allFiniteOrUndefined, areFinite, arePositive } from './domain.ts';
import { limitedByEmission } from './emission.ts';
import { threeHalvesAlongFilament } from './three-halves.ts';

/** What the currents of a screen-grid tube or pentode depend on. */
export interface ScreenGridTube {
  /** G of the whole cathode current, amperes per volt to the 1.5, above 0. */
  readonly perveance: number;
  /** Amplification factor from control grid to screen, above 0. */
  readonly screenMu: number;
  /** e₀, volts, added to the control grid. */
  readonly offset: number;
  /** Plate volts at which the plate takes half of its final share, above 0. */
  readonly kneeVoltage: number;
  /** Share of the cathode current that a very high plate voltage would take, above 0 to 1. */
  readonly plateShare: number;
}

/** Voltages of a screen-grid tube at work, all from F− or the cathode. */
export interface ScreenGridVoltages {
  readonly plate: number;
  readonly screen: number;
  readonly grid: number;
  /** From F− to F+; 0 for an indirectly heated cathode. */
  readonly filament: number;
}

/** One current and its slopes by each voltage, siemens. */
export interface ElectrodeCurrent {
  /** Amperes, 0 or more. */
  readonly current: number;
  readonly byGrid: number;
  readonly byScreen: number;
  readonly byPlate: number;
  readonly byFilament: number;
}

/** Both currents of a screen-grid tube. */
export interface ScreenGridState {
  /** Plate current; `byGrid` is the transconductance, `byPlate` 1/rₚ. */
  readonly plate: ElectrodeCurrent;
  readonly screen: ElectrodeCurrent;
}

/**
 * Plate and screen current of a screen-grid tube or pentode. Control grid and screen set the
 * cathode current by the three-halves law, G (Eg + Es/μs + e₀)^1.5 along the filament; the plate
 * takes the share p Ep/(Ep + Vk) and the screen the rest.
 *
 * @param saturation emission, amperes, 0 or more; endless when left out
 *
 * All voltages from F−. Undefined unless finite and the tube possible. Made for the neighbourhood
 * of published points, plate well above screen: plate current within 10 %, plate resistance
 * within 25 %. It knows nothing of secondary emission, so the dip of a four-element tube's plate
 * current below screen voltage is not there, and the knee is only a likely shape.
 * Source: law of C. D. Child and I. Langmuir; division of the current from memory, fitted.
 */
export function screenGridState(
  tube: ScreenGridTube,
  voltages: ScreenGridVoltages,
  saturation = Number.POSITIVE_INFINITY,
): ScreenGridState | undefined {
  const { perveance, screenMu, offset, kneeVoltage, plateShare } = tube;
  const { plate, screen, grid, filament } = voltages;
  if (!arePositive(perveance, screenMu, kneeVoltage, plateShare) || plateShare > 1) {
    return undefined;
  }
  if (!areFinite(offset, plate, screen, grid, filament)) {
    return undefined;
  }
  const spread = 1 + 1 / screenMu;
  const law = threeHalvesAlongFilament(grid + screen / screenMu + offset, filament * spread);
  const limited = limitedByEmission(perveance * law.value, saturation);
  if (limited === undefined) {
    return undefined;
  }
  const scale = perveance * limited.slope;
  const cathode = {
    current: limited.current,
    byGrid: scale * law.slope,
    byScreen: (scale * law.slope) / screenMu,
    byPlate: 0,
    byFilament: scale * law.dropSlope * spread,
  };
  const reached = Math.max(0, plate);
  const share = (plateShare * reached) / (reached + kneeVoltage);
  const shareSlope = plate > 0 ? (plateShare * kneeVoltage) / (reached + kneeVoltage) ** 2 : 0;
  const toPlate = allFiniteOrUndefined(part(cathode, share, shareSlope));
  const toScreen = allFiniteOrUndefined(part(cathode, 1 - share, -shareSlope));
  return toPlate === undefined || toScreen === undefined
    ? undefined
    : { plate: toPlate, screen: toScreen };
}

function part(cathode: ElectrodeCurrent, share: number, shareSlope: number): ElectrodeCurrent {
  return {
    current: cathode.current * share,
    byGrid: cathode.byGrid * share,
    byScreen: cathode.byScreen * share,
    byPlate: cathode.current * shareSlope,
    byFilament: cathode.byFilament * share,
  };
}
