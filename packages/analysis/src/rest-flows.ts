import { type Circuit, conductionOf, type Settings } from '@setwright/circuit';
import { type Rest, tubeFlows } from './dc-rest.ts';
import type { DcTube } from './dc-tubes.ts';
import { wireCurrents } from './wire-currents.ts';

/** The currents of a set at rest, down to its contacts and wires. */
export interface Flows {
  /** Amperes from `from` to `to` in every element; NaN where it cannot be told. */
  readonly amperes: Float64Array;
  /** Amperes that go into a part at each of its terminals, by the terminal's full name. */
  readonly into: ReadonlyMap<string, number>;
  /** Contacts that close on a terminal of another part, as those of selectors and jacks do. */
  readonly contacts: readonly ContactFlow[];
}

/** A closed contact and what flows through it. */
export interface ContactFlow {
  readonly part: string;
  readonly from: string;
  readonly to: string;
  /** Amperes; undefined in a ring of wires, where it cannot be told. */
  readonly amperes: number | undefined;
}

/**
 * The currents of all elements and terminals. Those in contacts and wires of no resistance follow
 * from what the rest brings to their ends; in a ring of them it cannot be told, and is NaN.
 */
export function flowsOf(circuit: Circuit, settings: Settings, rest: Rest): Flows {
  const { system } = rest;
  const amperes = Float64Array.from(system.amperes);
  const inflow = new Float64Array(circuit.junctions.length);
  const into = new Map<string, number>();
  const add = (terminal: string, value: number): void => {
    into.set(terminal, (into.get(terminal) ?? 0) + value);
  };
  const isOwn = (terminal: string, part: string): boolean =>
    circuit.partOfEnd.get(terminal)?.name === part;
  for (const { part, from, to } of conductionOf(circuit, settings).branches) {
    for (const terminal of [from, to])
      if (isOwn(terminal, part) && !into.has(terminal)) into.set(terminal, 0);
  }
  const wires: { from: number; to: number; index: number }[] = [];
  for (const [index, { branch, ohms, control, part }] of system.elements.entries()) {
    const { fromJunction: from, toJunction: to } = branch;
    if (ohms === 0 && control === undefined && part.kind !== 'tube') {
      wires.push({ from, to, index });
      continue;
    }
    const flows = amperes[index] as number;
    inflow[from] = (inflow[from] as number) - flows;
    inflow[to] = (inflow[to] as number) + flows;
  }
  for (const tube of system.tubes) {
    for (const { end, junction, amperes: flows } of tubeFlows(tube)) {
      inflow[junction] = (inflow[junction] as number) - flows;
      add(terminalOf(tube, end), flows);
    }
  }
  const inWires = wireCurrents(circuit.junctions.length, wires, inflow);
  for (const [place, { index }] of wires.entries()) amperes[index] = inWires[place] as number;
  const contacts: ContactFlow[] = [];
  for (const [index, { branch }] of system.elements.entries()) {
    const { part, from, to } = branch;
    const flows = amperes[index] as number;
    const ownFrom = isOwn(from, part);
    const ownTo = isOwn(to, part);
    if (ownFrom) add(from, flows);
    if (ownTo) add(to, 0 - flows);
    if (!ownFrom || !ownTo)
      contacts.push({ part, from, to, amperes: Number.isFinite(flows) ? flows : undefined });
  }
  return { amperes, into, contacts };
}

function terminalOf({ part, law, reference, minus }: DcTube, end: string): string {
  if (end !== 'reference') return `${part.name}.${end}`;
  const hasCathode = part.ends.some(({ name }) => name === 'cathode');
  return `${part.name}.${hasCathode || (law.heated && reference !== minus) ? 'cathode' : 'filament-'}`;
}
