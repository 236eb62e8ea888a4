/*
 * What is taken where the text does not say. All are common practice of the trade unless a source
 * stands beside them; every number that uses one lists it.
 */

/** One inch in metres. */
const INCH = 0.0254;

/** Between windings side by side, metres: an eighth of an inch. */
export const USUAL_GAP = INCH / 8;

/** Under a winding laid over another, metres: two or three turns of paper, 10 mil. */
export const USUAL_PAPER = 0.01 * INCH;

/** A rotor's form against the form it turns in. */
export const USUAL_ROTOR = 0.75;

/** Bare wire against the pitch where the gauge is not said. */
export const USUAL_WIRE_OVER_PITCH = 0.7;

/** Farads of wiring and panel against ground at the end of a winding: 10 mmfd. */
export const WIRING_CAPACITY = 10e-12;

/** Farads of a socket and a lead where no winding ends: 5 mmfd. */
export const SOCKET_CAPACITY = 5e-12;

/** Farads of a tube of unknown type at its grid: 10 mmfd. */
export const USUAL_TUBE_INPUT = 10e-12;

/**
 * Farads of a standard dummy aerial: 200 mmfd. Source: Institute of Radio Engineers, Committee on
 * Standardization, standard antenna for receiver tests (from memory).
 */
export const STANDARD_AERIAL = 200e-12;

/** Farads from which on a condenser is a plain way through for radio: .002 mfd. */
export const BYPASS_CAPACITY = 2e-9;

/** Least capacity of a variable condenser against its most. */
export const USUAL_LEAST_CAPACITY = 1 / 25;

/**
 * Share of an iron-core transformer's inductance that is leakage, counted between its windings:
 * they couple by √(1 − leakage).
 */
export const IRON_LEAKAGE = 0.02;

/** How far out the lower and upper edge of a band may be: unknown strays count at the upper. */
export const LOWER_EDGE_ERROR = 0.02;
export const UPPER_EDGE_ERROR = 0.1;
