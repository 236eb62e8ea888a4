import type { Conduction, JoinedBranch } from '@setwright/circuit';
import { isAirWinding } from '../radio/radio-use.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { regionsOf } from '../wiring/regions.ts';
import { stillPoints } from '../wiring/still-points.ts';

/** A stopper or losser has no more than this, in ohms. Common practice. */
const MOST_STOPPER_OHMS = 5000;

/** Points that are one to audio: tied by wire, contacts, air-core windings and stoppers. */
export interface SignalGroups {
  /** Junction to group. A point that stands still for the signal is a group of its own. */
  readonly of: readonly number[];
  /** Tubes with their plate in a group. */
  readonly plates: ReadonlyMap<number, readonly TubeAt[]>;
  /** Tubes with their grid in a group. */
  readonly grids: ReadonlyMap<number, readonly TubeAt[]>;
}

/** Finds what is one point to audio. Linear in the set. */
export function signalGroups(conduction: Conduction, tubes: readonly TubeAt[]): SignalGroups {
  const still = stillPoints(conduction);
  const of = regionsOf(
    conduction,
    (branch) =>
      !still.has(branch.fromJunction) &&
      !still.has(branch.toJunction) &&
      passesAudio(conduction, branch),
  );
  const plates = new Map<number, TubeAt[]>();
  const grids = new Map<number, TubeAt[]>();
  const note = (at: Map<number, TubeAt[]>, junction: number | undefined, tube: TubeAt): void => {
    const group = junction === undefined ? undefined : of[junction];
    if (group === undefined) return;
    const here = at.get(group);
    if (here) here.push(tube);
    else at.set(group, [tube]);
  };
  for (const tube of tubes) {
    note(plates, tube.plate?.junction, tube);
    note(grids, tube.grid?.junction, tube);
  }
  return { of, plates, grids };
}

function passesAudio(conduction: Conduction, { part: name, direct }: JoinedBranch): boolean {
  if (direct.kind !== 'conducts') return false;
  const part = conduction.circuit.partNamed.get(name);
  switch (part?.kind) {
    case 'lead':
    case 'switch':
    case 'selector':
    case 'jack':
    case 'fuse':
      return true;
    case 'resistor':
      return (direct.ohms ?? Number.POSITIVE_INFINITY) <= MOST_STOPPER_OHMS;
    default:
      return part !== undefined && isAirWinding(conduction.circuit, part);
  }
}
