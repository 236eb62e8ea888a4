import type { Circuit, Part } from '@setwright/circuit';
import { type Spot, spot } from '../chart/spot.ts';
import { groundTerminal } from '../edits/usual-faults.ts';

const cold = { state: 'cold', lifted: false, tubesOut: true, range: undefined } as const;

/**
 * Where an ohmmeter looks for a fault, besides the readings of the chart: from the aerial to the
 * ground through selector and coil, across condensers in place, where it sees the coil that they
 * tune, and across condensers by themselves, which should be open.
 */
export function searchingSpots(circuit: Circuit): readonly Spot[] {
  return circuit.parts.flatMap((part): Spot[] => {
    if (part.kind === 'post' && part.words.has('aerial')) return aerialToGround(circuit, part);
    return part.kind === 'condenser' ? acrossCondenser(part) : [];
  });
}

function aerialToGround(circuit: Circuit, part: Part): Spot[] {
  const [at, to] = [part.ends[0]?.id, groundTerminal(circuit)];
  return at === undefined || to === undefined || at === to
    ? []
    : [spot({ ...cold, at, to, across: undefined, quantity: 'resistance' })];
}

function acrossCondenser({ name, ends }: Part): Spot[] {
  const end = (wanted: string) => ends.find((each) => each.name === wanted)?.id;
  const at = end('start') ?? ends[0]?.id;
  const to = end('finish') ?? ends[1]?.id;
  if (at === undefined || to === undefined) return [];
  const across = { ...cold, at, to, across: name, quantity: 'resistance' } as const;
  return [spot(across), spot({ ...across, lifted: true })];
}
