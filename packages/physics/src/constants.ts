/** Permeability of free space in henries per metre, 4π·10⁻⁷ as in every period handbook. */
export const MU_0 = 4e-7 * Math.PI;

/** Velocity of light in metres per second (exact by definition of the metre since 1983). */
export const VELOCITY_OF_LIGHT = 299_792_458;

/**
 * Velocity in metres per second behind the period conversion kilocycles = 299,820 / metres
 * (Bureau of Standards and Department of Commerce tables, 1923 on; from memory).
 */
export const PERIOD_VELOCITY_OF_LIGHT = 299_820_000;

/** One international inch in metres. */
export const INCH = 0.0254;

/**
 * Resistivity of annealed copper at 20 °C in ohm-metres: International Annealed Copper Standard,
 * 0.15328 ohm for a metre-gramme at density 8.89 (NBS Circular 31, 3rd edition, 1914).
 */
export const COPPER_RESISTIVITY = 0.15328 / 8.89e6;

/** Boltzmann's constant over the charge of the electron, in volts per kelvin (SI, exact ratio). */
export const VOLTS_PER_KELVIN = 1.380649e-23 / 1.602176634e-19;
