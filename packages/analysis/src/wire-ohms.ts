import type { Circuit, JoinedBranch, Part } from '@setwright/circuit';
import { type CoilLayout, coilLayout } from './coil-layout.ts';
import { windingValues } from './winding-values.ts';

/** Ohms at direct current of a stretch of a winding; undefined where its make does not tell. */
export type WireOhms = (branch: JoinedBranch, winding: Part) => number | undefined;

/** Ohms of whole windings found before, by the winding. Kept by the caller; new ones are entered. */
export type WiresKnown = WeakMap<Part, number | undefined>;

/**
 * Reckons the ohms of windings on air of which the text tells the make and not the ohms: length of
 * wire times ohms to the metre, of each stretch between taps its share of the turns.
 */
export function wireOhmsOf(circuit: Circuit, known: WiresKnown = new WeakMap()): WireOhms {
  const layouts = new Map<string, CoilLayout>();
  return ({ from, to }, winding) => {
    const { owner = '' } = winding;
    if (!known.has(winding)) {
      const layout = layouts.get(owner) ?? coilLayout(circuit, owner);
      layouts.set(owner, layout);
      known.set(winding, windingValues(circuit, winding, layout).resistance.value);
    }
    const ohms = known.get(winding);
    if (ohms === undefined) return undefined;
    const [first, last] = [placeOf(winding, from), placeOf(winding, to)];
    return first === undefined || last === undefined
      ? ohms / (winding.taps.length + 1)
      : ohms * Math.abs(last - first);
  };
}

/** How far along its winding a terminal is, 0 at the start and 1 at the finish. */
function placeOf({ ends, taps }: Part, terminal: string): number | undefined {
  const end = ends.find(({ id }) => id === terminal)?.name;
  if (end === 'start') return 0;
  if (end === 'finish') return 1;
  return taps.find((tap) => tap.end === end)?.fraction;
}
