import type { Circuit, Conduction, Part } from '@setwright/circuit';
import type { TubeAt } from '../tubes/tubes.ts';
import { isAirWinding } from './radio-use.ts';

/** A winding on air and the one of its terminals by which it was come to. */
export interface WindingAt {
  readonly winding: Part;
  /** Full name of the terminal. */
  readonly terminal: string;
  readonly junction: number;
}

/** The winding that drives a tube's grid, and by which terminals. */
export interface GridCircuit {
  readonly tube: TubeAt;
  readonly winding: Part;
  readonly gridEnd: string;
  /** Junction of the grid's end of the winding. */
  readonly high: number;
  /** The terminal at which the winding is at rest, else its far end. */
  readonly lowEnd: string;
  readonly low: number;
}

/** A winding in a tube's plate circuit, from the plate to where it leads on. */
export interface PlateCircuit {
  readonly tube: TubeAt;
  readonly winding: Part;
  readonly plateEnd: string;
  readonly near: number;
  readonly farEnd: string;
  readonly far: number;
}

/** A resistance in a grid or plate lead that lets radio current pass, in ohms. Common practice. */
const MOST_STOPPER_OHMS = 5000;

/** A condenser in the way of the signal is no larger than this, in farads. Common practice. */
const MOST_COUPLING_FARADS = 0.02e-6;

/** Parts in series between a tube's electrode and its winding beyond which none is looked for. */
const MOST_IN_SERIES = 4;

/**
 * The windings on air that radio current comes to from a junction through wire, contacts, small
 * resistances and coupling condensers, nearest first. Nothing is followed past what is at rest.
 */
export function windingsFrom(
  conduction: Conduction,
  junction: number,
  isRest: (junction: number) => boolean,
): readonly WindingAt[] {
  const { circuit } = conduction;
  const found: WindingAt[] = [];
  if (isRest(junction)) return found;
  const depth = new Map([[junction, 0]]);
  for (const [here, steps] of depth) {
    for (const branch of conduction.at[here] ?? []) {
      const part = circuit.partNamed.get(branch.part);
      if (!part) continue;
      if (isAirWinding(circuit, part) && part.kind !== 'choke') {
        const terminal = branch.fromJunction === here ? branch.from : branch.to;
        if (!found.some((each) => each.winding === part))
          found.push({ winding: part, terminal, junction: here });
        continue;
      }
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (depth.has(there) || isRest(there) || steps >= MOST_IN_SERIES) continue;
      if (leadsOn(part, branch.direct.kind === 'blocks')) depth.set(there, steps + 1);
    }
  }
  return found;
}

function leadsOn(part: Part, blocks: boolean): boolean {
  switch (part.kind) {
    case 'condenser':
      return (
        !part.words.has('neutralizing') &&
        (part.values.capacitance?.value ?? 0) <= MOST_COUPLING_FARADS
      );
    case 'resistor':
      return (part.values.resistance?.value ?? Number.POSITIVE_INFINITY) <= MOST_STOPPER_OHMS;
    case 'lead':
    case 'fuse':
    case 'switch':
    case 'selector':
    case 'jack':
      return !blocks;
    default:
      return false;
  }
}

/** How far along its winding a terminal is, 0 at the start and 1 at the finish. */
export function fractionAt(winding: Part, terminal: string): number | undefined {
  const end = winding.ends.find(({ id }) => id === terminal)?.name;
  if (end === 'start') return 0;
  if (end === 'finish') return 1;
  return winding.taps.find((tap) => tap.end === end)?.fraction;
}

/**
 * From one terminal of a winding on, the first that is at rest; where none is, the far end.
 * Undefined where the way along it is not known.
 */
export function coldEnd(
  winding: Part,
  terminal: string,
  isRest: (junction: number) => boolean,
): { readonly id: string; readonly junction: number } | undefined {
  const here = fractionAt(winding, terminal);
  if (here === undefined) return undefined;
  const marks = winding.ends.flatMap((end) => {
    const at = fractionAt(winding, end.id);
    return at === undefined || end.id === terminal
      ? []
      : [{ id: end.id, junction: end.junction, at }];
  });
  const resting = marks
    .filter((mark) => isRest(mark.junction))
    .sort((a, b) => Math.abs(a.at - here) - Math.abs(b.at - here));
  if (resting[0]) return resting[0];
  return marks.sort((a, b) => Math.abs(b.at - here) - Math.abs(a.at - here))[0];
}

/** The winding that drives each tube's grid, for those of which one does. */
export function gridCircuitsOf(
  conduction: Conduction,
  tubes: readonly TubeAt[],
  isRest: (junction: number) => boolean,
): readonly GridCircuit[] {
  return tubes.flatMap((tube) => {
    if (!tube.grid) return [];
    const [found] = windingsFrom(conduction, tube.grid.junction, isRest);
    const cold = found && coldEnd(found.winding, found.terminal, isRest);
    if (!found || !cold) return [];
    const { winding, terminal, junction } = found;
    const low = { lowEnd: cold.id, low: cold.junction };
    return [{ tube, winding, gridEnd: terminal, high: junction, ...low }];
  });
}

/** Every winding that each tube's plate comes to. */
export function plateCircuitsOf(
  conduction: Conduction,
  tubes: readonly TubeAt[],
  isRest: (junction: number) => boolean,
): readonly PlateCircuit[] {
  return tubes.flatMap((tube) => {
    if (!tube.plate) return [];
    return windingsFrom(conduction, tube.plate.junction, isRest).flatMap((found) => {
      const { winding, terminal, junction } = found;
      const cold = coldEnd(winding, terminal, isRest);
      if (!cold) return [];
      const far = { farEnd: cold.id, far: cold.junction };
      return [{ tube, winding, plateEnd: terminal, near: junction, ...far }];
    });
  });
}

/** The coil that a winding belongs to; a loop or variometer is its own. */
export function coilOf(part: Part): string {
  return part.owner ?? part.name;
}

/** Whether a text names both ends of a stretch outright, and something is joined to each. */
export function endsAreUsed(circuit: Circuit, ...terminals: readonly string[]): boolean {
  return terminals.every((id) => (circuit.endNamed.get(id)?.joins.length ?? 0) > 0);
}
