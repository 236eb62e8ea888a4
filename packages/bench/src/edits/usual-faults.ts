import {
  type Circuit,
  isBias,
  isFilamentSupply,
  isSupply,
  type Part,
  spread,
} from '@setwright/circuit';

/*
 * How far a fault goes where a `suppose` does not say. All are common practice of the trade, from
 * memory, unless a source stands beside them.
 */

/** What a tired tube still gives of its plate current. */
export const WEAK_TUBE = 0.5;

/** Ion current of a gassy tube at its printed plate current, amperes. */
export const GAS_CURRENT = 2e-6;

/** Ohms of a paper condenser that leaks, of a small one of mica or air, of a damp transformer. */
export const LEAKY_PAPER = 20e3;
export const LEAKY_MICA = 1e6;
export const LEAKY_TRANSFORMER = 100e3;

/** Farads from which on a condenser of the time is rolled paper. */
export const PAPER_FROM = 5e-9;

/** Ohms of a dirty contact or a green joint in a filament lead. */
export const DIRTY_CONTACT = 0.5;

/**
 * Farads that a set with its batteries and cords has against the ground that its lead was on.
 */
export const SET_AGAINST_GROUND = 150e-12;

/** Farads of an aerial of which nothing is said: that of a standard dummy aerial. */
export const USUAL_AERIAL = 200e-12;

/** Ohms of a crystal at a dead spot, either way. */
export const DEAD_CRYSTAL = 4e3;

/**
 * A dry block is thrown out at 17 volts of 22.5; for plates and grids alike. Source: the
 * convention of the United States, from memory; British dealers of 1926 said 18.
 */
const DRY_BLOCK_END = 17 / 22.5;

/** A lead cell is down at 1.8 volts of 2, a large dry cell at 1.1 of 1.5. */
const STORAGE_END = 0.9;
const DRY_CELL_END = 1.1 / 1.5;

/** Ohms for each volt of a dry block that was left in use past its end: 500 in 45 volts. */
const TIRED_OHMS_PER_VOLT = 500 / 45;

/** What a tired supply still gives of its volts, and its ohms; undefined where they stay. */
export function tired(part: Part): { readonly share: number; readonly ohms: number | undefined } {
  if (part.kind === 'eliminator') return { share: 0.8, ohms: undefined };
  if (!isFilamentSupply(part) || isBias(part))
    return { share: DRY_BLOCK_END, ohms: TIRED_OHMS_PER_VOLT * spread(part) };
  if (part.words.has('storage') || (!part.words.has('dry') && spread(part) % 2 === 0))
    return { share: STORAGE_END, ohms: undefined };
  return { share: DRY_CELL_END, ohms: spread(part) };
}

/** Ohms at which a condenser leaks once it does. */
export function leakOf(part: Part): number {
  const farads = part.values.capacitance?.value ?? 0;
  return part.words.has('paper') || farads >= PAPER_FROM ? LEAKY_PAPER : LEAKY_MICA;
}

/** Where a core, frame or panel is grounded: a ground post, else the zero of the filament supply. */
export function groundTerminal(circuit: Circuit): string | undefined {
  const post = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('ground'));
  if (post) return post.ends[0]?.id;
  return zeroOfFilaments(circuit);
}

/** The terminal that everything but tubes and taps is measured against: A−. */
export function zeroOfFilaments(circuit: Circuit): string | undefined {
  const supplies = circuit.parts.filter(isSupply);
  const lights = supplies.find((part) => isFilamentSupply(part) && !isBias(part)) ?? supplies[0];
  const zero =
    lights && (lights.supplyTaps.find(({ volts }) => volts === 0) ?? lights.supplyTaps[0]);
  return lights?.ends.find(({ name }) => name === zero?.end)?.id;
}
