import type { Part, SupplyTap } from './model.ts';

/**
 * The most that a supply for filaments gives between its taps, in volts: a twelve-volt storage
 * battery freshly charged. Common practice.
 */
export const MOST_FILAMENT_VOLTS = 12.6;

/** Whether a part drives current: a battery or an eliminator. */
export function isSupply(part: Part): boolean {
  return part.kind === 'battery' || part.kind === 'eliminator';
}

/** The tap that a supply's volts are measured from; undefined for a supply without taps. */
export function zeroTap(part: Part): SupplyTap | undefined {
  return part.supplyTaps.find((tap) => tap.volts === 0) ?? part.supplyTaps[0];
}

/** The tap with the lowest volts; the zero tap where no volts are known. */
export function lowestTap(part: Part): SupplyTap | undefined {
  let lowest: SupplyTap | undefined;
  for (const tap of part.supplyTaps) {
    if (tap.volts === undefined) continue;
    if (lowest?.volts === undefined || tap.volts < lowest.volts) lowest = tap;
  }
  return lowest ?? zeroTap(part);
}

/** Volts between a supply's highest and lowest tap, of those known; 0 where fewer than two are. */
export function spread(part: Part): number {
  const volts = part.supplyTaps.flatMap((tap) => (tap.volts === undefined ? [] : [tap.volts]));
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of volts) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high > low ? high - low : 0;
}

/**
 * Whether a supply can only light filaments or bias grids: no two of its taps are more than
 * 12.6 V apart, and no tap with unknown volts is called B.
 */
export function isFilamentSupply(part: Part): boolean {
  return spread(part) <= MOST_FILAMENT_VOLTS && !part.supplyTaps.some(isNamedForPlates);
}

/** A tap of unknown volts whose name says that it feeds plates, such as `B+` or `B+DET`. */
function isNamedForPlates(tap: SupplyTap): boolean {
  return tap.volts === undefined && /^B(?!-)/i.test(tap.end);
}

/**
 * Volts of a tap above its supply's own zero with nothing drawn from it, undefined when not known.
 * An eliminator's volts hold at its stated load; without load it stands higher by what that load
 * loses in the source resistance.
 */
export function openVolts(part: Part, tap: SupplyTap): number | undefined {
  const zero = zeroTap(part);
  if (tap.volts === undefined || zero?.volts === undefined) return undefined;
  const lost = tap === zero ? 0 : (tap.atLoad ?? 0) * (tap.resistance ?? 0);
  return tap.volts - zero.volts + lost;
}

/** Whether a supply is for bias: its taps lie below its own zero, or it is called C. */
export function isBias(part: Part): boolean {
  return (
    isSupply(part) &&
    (part.supplyTaps.some(({ volts }) => volts !== undefined && volts < 0) || /^C/i.test(part.name))
  );
}
