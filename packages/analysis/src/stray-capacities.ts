import type { Circuit, Part } from '@setwright/circuit';
import { isAirInductor, type RadioGroups } from './radio-groups.ts';
import { SOCKET_CAPACITY, WIRING_CAPACITY } from './usual-values.ts';

/** What wires, sockets and panel hold against ground at one point. */
export interface StrayCapacity {
  /** The point at radio frequency: a junction that stands for it. */
  readonly point: number;
  readonly farads: number;
  /** The part whose leads it is. */
  readonly part: Part;
  /** What it was taken for. */
  readonly assumed: string;
}

/**
 * Stray capacities against ground, one for each point that is not at rest: 10 mmfd where an
 * air-core winding, loop or variometer ends, 5 mmfd where only a tube's grid or plate is. Tubes'
 * own capacities come on top, from their type. Common practice; empty where nothing is ground.
 */
export function strayCapacities(circuit: Circuit, points: RadioGroups): readonly StrayCapacity[] {
  const { ground } = points;
  if (ground === undefined) return [];
  const found = new Map<number, StrayCapacity>();
  const add = (terminal: string, part: Part, farads: number, words: string): void => {
    const point = points.ofEnd(terminal);
    if (point === undefined || point === ground || found.has(point)) return;
    const assumed = `${Math.round(farads * 1e12)} mmfd of ${words} ${terminal}`;
    found.set(point, { point, farads, part, assumed });
  };
  for (const part of circuit.parts) {
    if (!isAirInductor(circuit, part)) continue;
    for (const { name, id } of part.ends)
      if (name === 'start' || name === 'finish') add(id, part, WIRING_CAPACITY, 'wiring at');
  }
  for (const part of circuit.parts) {
    if (part.kind !== 'tube') continue;
    for (const { name, id } of part.ends)
      if (name === 'grid' || name === 'plate') add(id, part, SOCKET_CAPACITY, 'socket and lead at');
  }
  return [...found.values()];
}
