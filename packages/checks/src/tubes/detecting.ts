import { type Circuit, isOnAir, type Part } from '@setwright/circuit';
import { type GridLeak, gridLeakOf, partsAt, type TubeAt } from './tubes.ts';

/** Roles of stages whose tube detects; a superheterodyne's first detector is its mixer. */
const detecting: readonly string[] = ['detector', 'mixer'];

/** Whether a tube stands in a stage that detects. */
function isInDetector(tube: TubeAt): boolean {
  return tube.roles.some((role) => detecting.includes(role));
}

/**
 * The grid condenser by which a tube detects, with its leak if it has one. In a stage that says
 * what it is for, the stage decides; otherwise a grid condenser fed from a tuned or air-core
 * winding does, for a condenser fed from a plate only couples.
 */
export function detectingCondenserOf(circuit: Circuit, tube: TubeAt): GridLeak | undefined {
  const found = gridLeakOf(circuit, tube);
  return found && detectsBehind(circuit, tube, found.condenser) ? found : undefined;
}

/** The same, only where there is a leak. */
export function detectingLeakOf(
  circuit: Circuit,
  tube: TubeAt,
): (GridLeak & { readonly leak: Part }) | undefined {
  const found = detectingCondenserOf(circuit, tube);
  return found?.leak && { ...found, leak: found.leak };
}

/** Whether a condenser in the way of a tube's grid makes it a detector. */
export function detectsBehind(circuit: Circuit, tube: TubeAt, condenser: Part): boolean {
  if (tube.roles.length > 0) return isInDetector(tube);
  return condenser.ends.some((end) =>
    partsAt(circuit, end.junction).some((part) => part !== condenser && isRadioPart(circuit, part)),
  );
}

/** A part that carries a radio signal by its nature: an air-core winding, a tuning condenser. */
function isRadioPart(circuit: Circuit, part: Part): boolean {
  return part.kind === 'condenser' ? part.words.has('variable') : isOnAir(circuit, part);
}
