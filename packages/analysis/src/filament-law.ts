/**
 * A filament, heater or lamp as the resistance that it is: cold far below hot.
 */
export interface FilamentLaw {
  /** Volts and amperes at which it burns as it should; both above 0. */
  readonly ratedVolts: number;
  readonly ratedAmperes: number;
  /** Resistance at the rating over resistance when cold, above 1. */
  readonly hotOverCold: number;
  /** Near its rating the resistance grows with this power of the volts, above 0 and below 1. */
  readonly power: number;
}

/** Current through a filament and its slope. */
export interface FilamentCurrent {
  /** Amperes, of the sign of the volts. */
  readonly amperes: number;
  /** Siemens, above 0. */
  readonly slope: number;
}

/** What a filament is made of, as far as its resistance goes. */
export type FilamentMetal = 'tungsten' | 'thoriated' | 'oxide';

/**
 * Tungsten at 1900 kelvin has about 9 times its resistance when cold, at 2400 about 13; the
 * alloys under an oxide coat at 1050 kelvin about 3. The lamp laws let a lamp's amperes go with
 * the 0.58th power of its volts. All from memory of the lamp and tube texts; a guide to within a
 * fifth between a half and one and a half times the rated volts.
 */
const METALS: Readonly<Record<FilamentMetal, Pick<FilamentLaw, 'hotOverCold' | 'power'>>> = {
  tungsten: { hotOverCold: 13, power: 0.42 },
  thoriated: { hotOverCold: 9, power: 0.42 },
  oxide: { hotOverCold: 3, power: 0.35 },
};

/** The law of a filament of a metal that burns at these volts and amperes, both above 0. */
export function filamentLaw(
  metal: FilamentMetal,
  ratedVolts: number,
  ratedAmperes: number,
): FilamentLaw {
  return { ratedVolts, ratedAmperes, ...METALS[metal] };
}

/**
 * Amperes through a filament at these volts, once it has come to its heat: its resistance is
 * Rc (1 + k (V/Vr)²)^(p/2), which is the cold one at no volts, the rated one at the rated volts,
 * and grows with the p-th power of the volts thereabouts. The amperes always grow with the volts.
 */
export function filamentCurrent(law: FilamentLaw, volts: number): FilamentCurrent {
  const { ratedVolts, ratedAmperes, hotOverCold, power } = law;
  const steepness = hotOverCold ** (2 / power) - 1;
  const share = volts / ratedVolts;
  const heat = steepness * share * share;
  const cold = ratedVolts / ratedAmperes / hotOverCold;
  const ohms = cold * (1 + heat) ** (power / 2);
  return { amperes: volts / ohms, slope: (1 - (power * heat) / (1 + heat)) / ohms };
}
