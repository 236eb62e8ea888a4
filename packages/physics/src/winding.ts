import { areFinite, areNotNegative, arePositive } from './domain.ts';

/**
 * One winding on a common axis, as the field sees it: turns spread evenly over a length, and
 * over a depth where it has one. All lengths in metres.
 */
export interface Winding {
  /** Number of turns, above 0; need not be whole. */
  readonly turns: number;
  /** Radius to the middle of the wire, or to the middle of the depth. */
  readonly radius: number;
  /** Along the axis: turns times pitch. 0 for a flat coil or a single turn. */
  readonly length: number;
  /** Where the middle of the winding lies on the axis. */
  readonly position: number;
  /** Outer less inner radius, for layers or a flat spiral; 0 when left out. */
  readonly depth?: number;
  /** Wound the other way round: its mutual inductances change sign. */
  readonly reversed?: boolean;
}

/** True when the winding could exist: turns and radius above 0, its depth not past the axis. */
export function isWinding(winding: Winding): boolean {
  const { turns, radius, length, position, depth = 0 } = winding;
  return (
    arePositive(turns, radius) &&
    areNotNegative(length, depth) &&
    areFinite(position) &&
    depth < 2 * radius
  );
}

/**
 * The part of a single-layer winding between two taps, as a winding of its own in the same place.
 *
 * @param fromTurn turns counted from the start of the winding, 0 or more
 * @param toTurn above `fromTurn`, at most the winding's turns
 *
 * Undefined outside that. The start is the end towards smaller positions.
 */
export function sectionOf(winding: Winding, fromTurn: number, toTurn: number): Winding | undefined {
  if (!isWinding(winding) || !(fromTurn >= 0 && toTurn > fromTurn && toTurn <= winding.turns)) {
    return undefined;
  }
  const pitch = winding.length / winding.turns;
  const middle = (fromTurn + toTurn) / 2 - winding.turns / 2;
  return {
    ...winding,
    turns: toTurn - fromTurn,
    length: pitch * (toTurn - fromTurn),
    position: winding.position + pitch * middle,
  };
}
