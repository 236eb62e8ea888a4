import { inNaturalOrder } from './natural-order.ts';
import type { Thing, ThingKind } from './plain-set.ts';

/**
 * How firmly things stand in a set: what a restorer takes as fixed when they say where another
 * part's end went. A condenser goes from one tube's grid to another's plate, not the tubes to it.
 */
const firmness: Partial<Record<ThingKind, number>> = {
  battery: 8,
  eliminator: 8,
  bus: 7,
  post: 7,
  tube: 6,
  winding: 5,
  loop: 4,
  variometer: 4,
  jack: 3,
  switch: 3,
  selector: 3,
  rheostat: 2,
  potentiometer: 2,
  lead: 0.5,
};

export interface Standing {
  /** How firmly a terminal's part stands; 1 for most parts. */
  firm(terminal: string): number;
  /** The terminal by which a junction is best called. */
  best(terminals: readonly string[]): string | undefined;
}

/** How firmly each terminal of some things stands. */
export function standing(things: readonly Thing[]): Standing {
  const kinds = new Map(
    things.flatMap(({ ends, kind }) => ends.map((end) => [end, kind] as const)),
  );
  const firm = (terminal: string): number => {
    const kind = kinds.get(terminal);
    return (kind && firmness[kind]) ?? 1;
  };
  const best = (terminals: readonly string[]) =>
    terminals.reduce<string | undefined>((found, each) => {
      if (found === undefined) return each;
      const by = firm(each) - firm(found);
      return by > 0 || (by === 0 && inNaturalOrder(each, found) < 0) ? each : found;
    }, undefined);
  return { firm, best };
}
