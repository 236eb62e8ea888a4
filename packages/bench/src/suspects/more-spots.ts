import type { Circuit, Part } from '@setwright/circuit';
import { type Spot, spot } from '../chart/spot.ts';
import { zeroOfFilaments } from '../edits/usual-faults.ts';

const hot = { state: 'on', lifted: false, tubesOut: false, range: undefined } as const;
const cold = { state: 'cold', lifted: false, tubesOut: true, range: undefined } as const;

/**
 * Where a meter looks for a fault, besides the readings of the chart: volts at both ends of what
 * plate current passes on its way; across condensers in place, where an ohmmeter sees the coil that
 * they tune; across condensers by themselves, which should be open; and from tube to tube.
 *
 * @param amperes through a part of the sound set, by its name
 */
export function searchingSpots(
  circuit: Circuit,
  amperes: (part: string) => number,
): readonly Spot[] {
  const zero = zeroOfFilaments(circuit);
  const own = circuit.parts.flatMap((part): Spot[] => {
    if (part.kind === 'condenser') return acrossCondenser(part);
    return ON_THE_WAY.has(part.kind) && isPlateCurrent(Math.abs(amperes(part.name)))
      ? alongTheWay(part, zero)
      : [];
  });
  return [...own, ...betweenTubes(circuit)];
}

/** What stands in plate leads and is measured at both ends. */
const ON_THE_WAY: ReadonlySet<string> = new Set([
  'winding',
  'choke',
  'resistor',
  'phones',
  'horn',
  'speaker',
]);

/** Amperes between those of a grid and those of a filament. */
function isPlateCurrent(amperes: number): boolean {
  return amperes > 5e-6 && amperes < 50e-3;
}

function alongTheWay({ ends }: Part, zero: string | undefined): Spot[] {
  return ends
    .filter(({ name }) => name === 'start' || name === 'finish')
    .flatMap(({ id }) =>
      zero === undefined
        ? []
        : [spot({ ...hot, at: id, to: zero, across: undefined, quantity: 'voltage' })],
    );
}

function acrossCondenser({ name, ends }: Part): Spot[] {
  const end = (wanted: string) => ends.find((each) => each.name === wanted)?.id;
  const at = end('start') ?? ends[0]?.id;
  const to = end('finish') ?? ends[1]?.id;
  if (at === undefined || to === undefined) return [];
  const across = { ...cold, at, to, across: name, quantity: 'resistance' } as const;
  return [spot(across), spot({ ...across, lifted: true })];
}

/**
 * From grid to grid and from plate to plate of tubes that stand next to one another in the text:
 * one reading of the ohms of both ways home.
 */
function betweenTubes(circuit: Circuit): Spot[] {
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  return tubes.slice(1).flatMap((other, at) =>
    ['grid', 'plate'].flatMap((name): Spot[] => {
      const [from, to] = [tubes[at], other].map((tube) =>
        tube?.ends.find((each) => each.name === name),
      );
      if (from === undefined || to === undefined) return [];
      return [spot({ ...cold, at: from.id, to: to.id, across: undefined, quantity: 'resistance' })];
    }),
  );
}
