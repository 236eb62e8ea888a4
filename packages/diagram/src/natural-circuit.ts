import type { Circuit, End, Junction, Part } from '@setwright/circuit';
import { naturally } from './natural-order.ts';
import { isSupply } from './rails.ts';

/**
 * The same circuit with its parts, taps, terminals and junctions in the natural order of their
 * names, whatever the order of the text: what is drawn from it cannot depend on that order.
 */
export function inNaturalOrder(circuit: Circuit): Circuit {
  const sorted = circuit.junctions
    .map((junction) => ({ ...junction, terminals: [...junction.terminals].sort(naturally) }))
    .sort((a, b) => naturally(a.terminals[0] ?? '', b.terminals[0] ?? ''));
  const indexOf = new Map(sorted.map(({ index }, at) => [index, at]));
  const junctions: Junction[] = sorted.map((junction, index) => ({ ...junction, index }));
  const parts = [...circuit.parts].sort(byName).map((part): Part => {
    const ends = endsInOrder(part).map((end) => ({
      ...end,
      junction: indexOf.get(end.junction) ?? end.junction,
    }));
    const byEnd = (a: { readonly end: string }, b: { readonly end: string }): number =>
      naturally(a.end, b.end);
    return {
      ...part,
      ends,
      taps: [...part.taps].sort(byEnd),
      supplyTaps: [...part.supplyTaps].sort(byEnd),
    };
  });
  const ends = parts.flatMap((part) => part.ends.map((end) => ({ part, end })));
  return {
    ...circuit,
    parts,
    junctions,
    stages: circuit.stages
      .map((stage) => ({ ...stage, parts: sortedNames(stage.parts) }))
      .sort(byName),
    gangs: circuit.gangs
      .map((gang) => ({ ...gang, members: sortedNames(gang.members) }))
      .sort(byName),
    dials: [...circuit.dials].sort(byName),
    partNamed: new Map(parts.map((part) => [part.name, part])),
    endNamed: new Map(ends.map(({ end }) => [end.id, end])),
    partOfEnd: new Map(ends.map(({ part, end }) => [end.id, part])),
  };
}

const byName = (a: { readonly name: string }, b: { readonly name: string }): number =>
  naturally(a.name, b.name);

const sortedNames = (names: readonly string[]): string[] => [...names].sort(naturally);

/** A supply's taps by name; of anything else the ends that its kind has first, then its taps. */
function endsInOrder(part: Part): End[] {
  const own = part.ends.length - part.taps.length;
  const first = isSupply(part) ? [] : part.ends.slice(0, own);
  const rest = part.ends.slice(first.length);
  return [...first, ...rest.sort((a, b) => naturally(a.name, b.name))];
}
