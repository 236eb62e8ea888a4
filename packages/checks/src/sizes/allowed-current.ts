import type { PartAtWork } from '@setwright/analysis';
import type { Part } from '@setwright/circuit';

/** How far a reckoned current or power may be out, as a share. */
export const REST_ERROR = 0.1;

/**
 * The current that the wire of a resistance bears, in amperes: as stated, else what makes its
 * rated power in the whole of it. A part of the wire bears no more. Undefined where unrated.
 */
export function allowedCurrent({ values }: Part): number | undefined {
  const stated = values.ratedCurrent?.value;
  if (stated !== undefined && stated > 0) return stated;
  const watts = values.ratedPower?.value;
  const ohms = values.resistance?.value;
  if (watts === undefined || ohms === undefined || !(watts > 0) || !(ohms > 0)) return undefined;
  return Math.sqrt(watts / ohms);
}

/** The amperes of parts at work, by name; parts of which they are not known are left out. */
export function amperesAtWork(parts: readonly PartAtWork[]): ReadonlyMap<string, number> {
  return new Map(
    parts.flatMap(({ part, amperes }) => (amperes ? [[part, Math.abs(amperes.value)]] : [])),
  );
}
