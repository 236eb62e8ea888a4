import { emitterOf, type Part, rolesOf } from '@setwright/circuit';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** The points of a tube in a network. */
export interface TubePoints {
  readonly part: Part;
  readonly grid: number;
  readonly plate: number;
  readonly reference: number;
}

/** Found before, by the set. */
const pointsKnown = new WeakMap<SmallSignal, readonly TubePoints[]>();

/** The tubes of a network that have a grid and a plate in it, in the order of the text. */
export function tubePoints(set: SmallSignal): readonly TubePoints[] {
  const known = pointsKnown.get(set) ?? findTubePoints(set);
  pointsKnown.set(set, known);
  return known;
}

function findTubePoints(set: SmallSignal): readonly TubePoints[] {
  return set.circuit.parts.flatMap((part) => {
    if (part.kind !== 'tube' || set.point.settings.removed.has(part.name)) return [];
    const grid = set.pointOf(`${part.name}.grid`);
    const plate = set.pointOf(`${part.name}.plate`);
    const reference = set.pointOf(emitterOf(part)?.id ?? '');
    return grid === undefined || plate === undefined || reference === undefined
      ? []
      : { part, grid, plate, reference };
  });
}

/** Whether a part is for one of these uses, by its stage or else by its wiring. */
export function isOfRole({ circuit }: SmallSignal, part: Part, ...roles: string[]): boolean {
  return rolesOf(circuit, part).some((role) => roles.includes(role));
}

/**
 * The tubes that a signal passes one after another at a frequency in hertz, from where it comes in
 * to the detector or mixer: with the tubes amplifying nothing, the grid that hears the aerial best
 * is the first, the one that hears its plate best the next.
 */
export function radioChain(
  set: SmallSignal,
  frequency: number,
  tuning: Tuning,
): readonly TubePoints[] {
  const { cold, entrance } = set;
  if (entrance === undefined) return [];
  const electromotive = new Map([[entrance.series, [1, 0] as const]]);
  const room = eliminateAt(tunedSystem(cold, tuning), at(frequency));
  if (!room) return [];
  const tubes = tubePoints(set).filter(({ part }) => mayCarryRadio(set, part));
  const chain: TubePoints[] = [];
  let heard = solveDriven(cold, room, { electromotive });
  for (;;) {
    let next: TubePoints | undefined;
    let most = 0;
    for (const tube of tubes) {
      if (chain.includes(tube)) continue;
      const volts = Math.hypot(
        (heard.re[tube.grid] as number) - (heard.re[tube.reference] as number),
        (heard.im[tube.grid] as number) - (heard.im[tube.reference] as number),
      );
      if (volts > most) [next, most] = [tube, volts];
    }
    if (!next) return chain;
    chain.push(next);
    const { part, plate, reference } = next;
    if (isOfRole(set, part, 'detector', 'mixer') && !isOfRole(set, part, 'radio')) return chain;
    const currents = new Map([
      [plate, [1, 0] as const],
      [reference, [-1, 0] as const],
    ]);
    heard = solveDriven(cold, room, { currents });
  }
}

/** Tubes that only amplify audio, or only oscillate, are no part of the way. */
function mayCarryRadio({ circuit }: SmallSignal, part: Part): boolean {
  const roles = rolesOf(circuit, part);
  return roles.length === 0 || roles.some((role) => RADIO_ROLES.has(role));
}

const RADIO_ROLES: ReadonlySet<string> = new Set(['radio', 'intermediate', 'mixer', 'detector']);

function at(frequency: number) {
  return { growth: 0, radians: 2 * Math.PI * frequency };
}
