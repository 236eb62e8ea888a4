/** Current through a crystal from whisker to mineral, and its slope. */
export interface CrystalCurrent {
  readonly amperes: number;
  /** Siemens, above 0. */
  readonly slope: number;
}

/**
 * A good spot on galena, from memory and no better than a factor of three either way: 5 µA of
 * back current, e-fold growth in 60 mV (12 kilohms about zero), 300 ohms of bulk in the good
 * direction, 100 kilohms of leakage in the bad one.
 */
const BACK_CURRENT = 5e-6;
const E_FOLD_VOLTS = 0.06;
const BULK_SLOPE = 1 / 300;
const LEAKAGE = 1e-5;

/** Volts at which the growing slope has come to that of the bulk. */
const STRAIGHT_FROM = E_FOLD_VOLTS * Math.log((BULK_SLOPE * E_FOLD_VOLTS) / BACK_CURRENT);

/**
 * Amperes through a crystal at these volts of its whisker above its mineral: an exponential that
 * goes over into a straight line. The good direction is taken as from whisker to mineral; of a
 * given stone nobody knows before trying. An approximation, from memory.
 */
export function crystalCurrent(volts: number): CrystalCurrent {
  const bent = Math.min(volts, STRAIGHT_FROM);
  const grown = BACK_CURRENT * Math.exp(bent / E_FOLD_VOLTS);
  const straight = volts - bent;
  return {
    amperes: grown - BACK_CURRENT + LEAKAGE * volts + BULK_SLOPE * straight,
    slope: LEAKAGE + (straight > 0 ? BULK_SLOPE : grown / E_FOLD_VOLTS),
  };
}
