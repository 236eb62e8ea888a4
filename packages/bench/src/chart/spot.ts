import { type Circuit, type Place, terminalName } from '@setwright/circuit';
import type { Quantity } from './meter.ts';

/** Where and how a meter is put on a set. */
export interface Spot {
  /** Tells it from every other of the same chart. */
  readonly id: string;
  /** The terminal that the probe is on; of ohms and volts across a part, its first. */
  readonly at: string;
  /** The terminal that the other lead is on; undefined for a current. */
  readonly to: string | undefined;
  /** The part that it is measured across, where one is. */
  readonly across: string | undefined;
  readonly quantity: Quantity;
  /** Batteries on and tubes alight, or batteries off and tubes out. */
  readonly state: 'on' | 'cold';
  /** Whether the part is measured by itself, one end off. */
  readonly lifted: boolean;
  /** Whether the tubes are out of their sockets. */
  readonly tubesOut: boolean;
  /** The full scale that the text says. */
  readonly range: number | undefined;
}

/** A spot with what was read there. */
export interface Taken extends Spot {
  /** SI; endless for `open`, 0 for `short`; undefined where nothing was read. */
  readonly read: number | undefined;
  readonly place: Place | undefined;
}

/** A spot by its id, made of everything that tells it from others. */
export function spot(said: Omit<Spot, 'id'>): Spot {
  const { quantity, at, to, lifted, tubesOut, state, range } = said;
  const id = [
    quantity,
    at,
    ...(to === undefined ? [] : [to]),
    ...(lifted ? ['lifted'] : []),
    ...(tubesOut && state === 'on' ? ['tubes out'] : []),
    ...(range === undefined ? [] : ['on', String(range)]),
  ].join(' ');
  return { id, ...said };
}

/** A terminal as the text calls it: a tap by its own name. */
export function calledSo(circuit: Circuit, terminal: string): string {
  return terminalName(terminal, circuit.partOfEnd.get(terminal));
}
