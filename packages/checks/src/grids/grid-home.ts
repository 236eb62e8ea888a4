import { type Circuit, type Part, zeroTap } from '@setwright/circuit';
import { lightOf, type Rails } from '../supplies/rails.ts';
import { detectingCondenserOf } from '../tubes/detecting.ts';
import type { TubeAt } from '../tubes/tubes.ts';

/** Where a tube's grid belongs. */
export interface GridHome {
  /** The name of a terminal that the text can join to: `A-`, `A+`, `V3.cathode`. */
  readonly name: string;
  /** Why there, to stand behind the name: `, the side that the 01-A wants as a detector`. */
  readonly because: string;
}

/**
 * The terminal that a tube's grid should return to: for a detector by grid leak the side that its
 * type wants, for an amplifier the negative side. Undefined where the text does not tell how the
 * tube is lit.
 */
export function gridHomeOf(
  circuit: Circuit,
  rails: Rails,
  tube: TubeAt,
  detects = detectingCondenserOf(circuit, tube) !== undefined,
): GridHome | undefined {
  if (tube.cathode) return { name: tube.cathode.id, because: '' };
  const supply = lightOf(rails, tube)?.supply;
  if (!supply) return undefined;
  const wanted = detects ? tube.part.tubeType?.detector?.returnTo : undefined;
  const name = wanted === 'A+' ? positiveTap(supply) : zeroTap(supply)?.end;
  if (name === undefined) return undefined;
  const because =
    wanted === undefined ? '' : `, the side that the ${tube.part.typeName} wants as a detector`;
  return { name, because };
}

/** The name of a supply's highest tap. */
export function positiveTap(supply: Part): string | undefined {
  let highest = supply.supplyTaps[0];
  for (const tap of supply.supplyTaps) {
    if ((tap.volts ?? 0) > (highest?.volts ?? 0)) highest = tap;
  }
  return highest?.end;
}

/** A tap's name where one supply alone has it, so that the text can join to it. */
export function writableTap(circuit: Circuit, name: string): boolean {
  return circuit.parts.filter((part) => part.ends.some((end) => end.name === name)).length === 1;
}
