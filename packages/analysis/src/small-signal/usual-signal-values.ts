/*
 * What is taken for signals where the text does not say. All are common practice of the trade
 * unless a source stands beside them; every network that uses one lists it.
 */

/** Henries of the leads to a battery, for each of its taps: two microhenries, some two yards. */
export const LEAD_INDUCTANCE = 2e-6;

/**
 * Henries and ohms of a standard dummy aerial, in series with its 200 mmfd. Source: Institute of
 * Radio Engineers, Committee on Standardization, tests of broadcast receivers: 200 micromicro-
 * farads, 20 microhenries, 25 ohms (from memory).
 */
export const AERIAL_INDUCTANCE = 20e-6;
export const AERIAL_RESISTANCE = 25;

/** Q of a winding on air of which neither wire nor ohms are told. */
export const USUAL_Q = 100;

/** Farads across the windings of an audio transformer: 50 and 100 mmfd. */
export const IRON_PRIMARY_CAPACITY = 50e-12;
export const IRON_SECONDARY_CAPACITY = 100e-12;

/** Farads across chokes: on air 5 mmfd, on iron 50 mmfd. */
export const AIR_CHOKE_CAPACITY = 5e-12;
export const IRON_CHOKE_CAPACITY = 50e-12;

/**
 * Loss in the iron of an audio transformer, as a resistance across its primary: twice the
 * primary's reactance at 1000 cycles. Eddy currents in the sheets act so at any audio frequency.
 */
export const IRON_LOSS = 2 * 2 * Math.PI * 1000;

/**
 * Q of the leakage inductance of windings on iron: what their copper and the iron lose to stray
 * flux. The peaks of such transformers at their own resonance are low.
 */
export const IRON_LEAKAGE_Q = 5;

/** Henries of chokes of which nothing is told: on air 60 mH, on iron 30 H. */
export const AIR_CHOKE_INDUCTANCE = 0.06;
export const IRON_CHOKE_INDUCTANCE = 30;

/** Farads of the cord of phones or of a loudspeaker: 200 mmfd. */
export const CORD_CAPACITY = 200e-12;

/** Henries of an audio transformer's primary, and its ratio, where nothing is told. */
export const USUAL_PRIMARY = 12;
export const USUAL_RATIO = 3;

/** Farads at every tap inside an eliminator: 1 mfd. */
export const ELIMINATOR_CAPACITY = 1e-6;

/** Siemens of insulation from every point to ground: a million megohms. */
export const INSULATION = 1e-12;
