import { coaxialCircles, singleTurnInductance } from './coaxial.ts';
import { finiteOrUndefined } from './domain.ts';
import type { SingleLayerCoil } from './solenoid.ts';
import { isWinding, type Winding } from './winding.ts';

/** One circular turn on the common axis, metres. */
export interface Turn {
  readonly radius: number;
  readonly position: number;
}

/** Most turns a full sum takes on: four million pairs are a second's work. */
const MOST_TURNS = 2000;

/**
 * The turns of a winding one by one: a row along the length, or `layers` such rows spread evenly
 * through the depth (for a flat spiral, length 0, as many layers as turns).
 *
 * Undefined unless the winding could exist, turns and layers are whole, the layers share the
 * turns evenly and there are at most 2000.
 */
export function turnsOf(winding: Winding, layers = 1): readonly Turn[] | undefined {
  const { turns, length, radius, position, depth = 0 } = winding;
  const inLayer = turns / layers;
  const even = [turns, layers, inLayer].every((count) => Number.isInteger(count) && count >= 1);
  if (!isWinding(winding) || !even || turns > MOST_TURNS) {
    return undefined;
  }
  const all: Turn[] = [];
  for (let layer = 0; layer < layers; layer += 1) {
    for (let turn = 0; turn < inLayer; turn += 1) {
      all.push({
        radius: radius + depth * ((layer + 0.5) / layers - 0.5),
        position: position + length * ((turn + 0.5) / inLayer - 0.5),
      });
    }
  }
  return all;
}

/**
 * Mutual inductance in henries as the sum over every pair of turns, the yardstick for the quicker
 * routines. Undefined when any pair of turns coincides or could not exist. Error that of the
 * circles alone, below 1e-12; the spiral of the wire is left out.
 * Source: Maxwell's coaxial circles.
 */
export function mutualOfTurns(first: readonly Turn[], second: readonly Turn[]): number | undefined {
  let sum = 0;
  for (const one of first) {
    for (const other of second) {
      const pair = coaxialCircles(one.radius, other.radius, one.position - other.position);
      if (pair === undefined) {
        return undefined;
      }
      sum += pair;
    }
  }
  return finiteOrUndefined(sum);
}

/**
 * Self-inductance in henries of turns in series, as the sum of each turn's own and every pair.
 *
 * @param wireRadius metres; uniform current in the wire
 *
 * Undefined when two turns coincide or one could not exist.
 * Source: single turn μ₀ a (ln(8a/r) − 1.75) and Maxwell's coaxial circles.
 */
export function selfOfTurns(turns: readonly Turn[], wireRadius: number): number | undefined {
  let sum = 0;
  for (const [index, one] of turns.entries()) {
    const own = singleTurnInductance(one.radius, wireRadius);
    if (own === undefined) {
      return undefined;
    }
    sum += own;
    for (const other of turns.slice(index + 1)) {
      const pair = coaxialCircles(one.radius, other.radius, one.position - other.position);
      if (pair === undefined) {
        return undefined;
      }
      sum += 2 * pair;
    }
  }
  return turns.length === 0 ? undefined : finiteOrUndefined(sum);
}

/**
 * Self-inductance in henries of a single-layer coil, turn by turn. All turns are alike, so one
 * pair for each distance serves: as many pairs as turns.
 *
 * Undefined unless turns are whole, 1 to 2000, and the wire no thicker than the pitch.
 * Source: single turn μ₀ a (ln(8a/r) − 1.75) and Maxwell's coaxial circles.
 */
export function turnByTurnInductance(coil: SingleLayerCoil): number | undefined {
  const { turns, radius, pitch, wireDiameter } = coil;
  const own = singleTurnInductance(radius, wireDiameter / 2);
  if (!Number.isInteger(turns) || turns < 1 || turns > MOST_TURNS || !(wireDiameter <= pitch)) {
    return undefined;
  }
  if (own === undefined) {
    return undefined;
  }
  let sum = turns * own;
  for (let apart = 1; apart < turns; apart += 1) {
    sum += 2 * (turns - apart) * (coaxialCircles(radius, radius, apart * pitch) ?? Number.NaN);
  }
  return finiteOrUndefined(sum);
}
