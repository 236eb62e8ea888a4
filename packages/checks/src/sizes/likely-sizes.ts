import type { Dimension } from '@setwright/units';

/** What sizes a quantity comes in, least and greatest, in SI. */
export interface Sizes {
  readonly low: number;
  readonly high: number;
}

/** Bounds by the part that a component plays. Common practice of battery receivers. */
export const sizesByRole = {
  'grid stopper': { low: 50, high: 3000 },
  'grid leak': { low: 0.25e6, high: 10e6 },
  'grid condenser': { low: 50e-12, high: 500e-12 },
  'radio bypass': { low: 250e-12, high: 1e-6 },
  'filament rheostat': { low: 0.1, high: 1000 },
  'tuned winding': { low: 5e-6, high: 30e-3 },
} as const satisfies Readonly<Record<string, Sizes>>;

export type Role = keyof typeof sizesByRole;

/** Diameters of coil forms: a tenth of an inch to five feet. */
export const formSizes: Sizes = { low: 2.54e-3, high: 1.524 };

/**
 * Bounds of physical sense, by kind of part and slot: what nobody ever put into a receiver. Wide
 * on purpose; common practice.
 */
export const sizesByKind: Readonly<Record<string, Readonly<Record<string, Sizes>>>> = {
  battery: {
    resistance: { low: 0, high: 10e3 },
    capacity: { low: 0.05 * 3600, high: 2000 * 3600 },
  },
  eliminator: { resistance: { low: 0, high: 1e6 } },
  post: { capacitance: { low: 5e-12, high: 0.02e-6 }, resistance: { low: 0, high: 1000 } },
  lead: { resistance: { low: 0, high: 100 } },
  variometer: { inductance: { low: 0.1e-6, high: 0.1 }, resistance: { low: 0, high: 1000 } },
  loop: {
    inductance: { low: 0.1e-6, high: 0.1 },
    resistance: { low: 0, high: 1000 },
    turns: { low: 0.25, high: 500 },
  },
  condenser: {
    capacitance: { low: 0.05e-12, high: 50e-6 },
    ratedVoltage: { low: 1, high: 50e3 },
    plates: { low: 2, high: 200 },
  },
  resistor: { resistance: { low: 0.001, high: 100e6 }, ratedPower: { low: 0.01, high: 1000 } },
  leak: { resistance: { low: 10e3, high: 100e6 }, ratedPower: { low: 0.01, high: 10 } },
  rheostat: {
    resistance: { low: 0.05, high: 500e3 },
    ratedCurrent: { low: 1e-3, high: 50 },
    ratedPower: { low: 0.01, high: 1000 },
  },
  potentiometer: { resistance: { low: 1, high: 20e6 }, ratedPower: { low: 0.01, high: 1000 } },
  ballast: {
    volts: { low: 0.1, high: 300 },
    ratedCurrent: { low: 5e-3, high: 20 },
    resistance: { low: 0.01, high: 10e3 },
  },
  choke: {
    inductance: { low: 1e-6, high: 10e3 },
    resistance: { low: 0, high: 50e3 },
    ratedCurrent: { low: 0.1e-3, high: 20 },
  },
  phones: {
    resistance: { low: 0.1, high: 100e3 },
    inductance: { low: 1e-6, high: 1000 },
    ratedCurrent: { low: 0.01e-3, high: 5 },
  },
  horn: {
    resistance: { low: 0.1, high: 100e3 },
    inductance: { low: 1e-6, high: 1000 },
    ratedCurrent: { low: 0.01e-3, high: 5 },
  },
  speaker: {
    resistance: { low: 0.1, high: 100e3 },
    inductance: { low: 1e-6, high: 1000 },
    ratedCurrent: { low: 0.01e-3, high: 5 },
  },
  switch: { ratedCurrent: { low: 1e-3, high: 1000 } },
  lamp: {
    volts: { low: 0.5, high: 300 },
    ratedCurrent: { low: 5e-3, high: 20 },
    ratedPower: { low: 0.01, high: 1000 },
    resistance: { low: 0.05, high: 100e3 },
  },
  fuse: { ratedCurrent: { low: 5e-3, high: 200 }, resistance: { low: 0, high: 1000 } },
  coil: { form: formSizes, formLength: { low: 2.54e-3, high: 3.048 } },
  transformer: { ratio: { low: 0.005, high: 200 } },
};

/** A variable, trimming or neutralizing condenser with its plates in. */
export const variableCapacity: Sizes = { low: 1e-12, high: 0.005e-6 };
/** An electrolytic condenser. */
export const electrolyticCapacity: Sizes = { low: 0.1e-6, high: 0.1 };
/** A winding in air, and one on iron. */
export const airWinding: Readonly<Record<string, Sizes>> = {
  turns: { low: 0.25, high: 3000 },
  inductance: { low: 0.01e-6, high: 1 },
  resistance: { low: 0, high: 2000 },
  ratedCurrent: { low: 0.01e-3, high: 20 },
};
export const ironWinding: Readonly<Record<string, Sizes>> = {
  turns: { low: 1, high: 200e3 },
  inductance: { low: 1e-6, high: 10e3 },
  resistance: { low: 0, high: 100e3 },
  ratedCurrent: { low: 0.01e-3, high: 20 },
};
/** Tolerances are percentages of what is marked. */
export const tolerance: Sizes = { low: 1e-4, high: 1 };
/** Volts of a tap of a battery or eliminator, either way from its zero; zero itself is well. */
export const tapVolts: Sizes = { low: 0.5, high: 1000 };
/** What circuits are tuned to, in hertz: from the longest waves to the shortest then in use. */
export const tuning: Sizes = { low: 10e3, high: 60e6 };
/** Years of sets that this tool is for, those built today after old plans among them. */
export const years: Sizes = { low: 1890, high: 2100 };

/** The units that a slip of the pencil may exchange, by what they measure. */
export const likeUnits: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  voltage: ['V', 'mV'],
  current: ['A', 'mA'],
  resistance: ['ohms', 'kilohms', 'megohms'],
  capacitance: ['mmfd', 'mfd'],
  inductance: ['uH', 'mH', 'H'],
  frequency: ['kc', 'meters', 'Mc'],
  length: ['in', 'mm', 'mil', 'ft'],
};
