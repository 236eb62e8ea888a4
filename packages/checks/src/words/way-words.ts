import type { Circuit, Finding, Join, Place, Step } from '@setwright/circuit';
import { type JoinPassed, joinsBetween } from '../wiring/joins-between.ts';
import { alsoPart, listed, nameOf } from './finding.ts';

/** The parts that a way leads through, each once, in order. */
export function partsOfWay(steps: readonly Step[]): readonly string[] {
  return [...new Set(steps.map(({ part }) => part))];
}

/** What a person calls a part on a way; a lead goes by what it is. */
export function partWords(circuit: Circuit, name: string): string {
  return circuit.partNamed.get(name)?.kind === 'lead' ? 'a lead' : name;
}

/** `by wire alone`, or `through S1 and L2.plate`. */
export function wayWords(circuit: Circuit, steps: readonly Step[]): string {
  const names = partsOfWay(steps).map((name) => partWords(circuit, name));
  return names.length === 0 ? 'by wire alone' : `through ${listed([...new Set(names)])}`;
}

/**
 * Where the text says the joins that make up a way: its most telling line first. That is a wire
 * where there is one, else the line of the first part on the way, else the first join.
 */
export function linesOfWay(
  circuit: Circuit,
  from: string,
  to: string,
  steps: readonly Step[],
): { readonly place: Place | undefined; readonly related: Finding['related'] } {
  const first = steps[0];
  const last = steps.at(-1);
  const ends: readonly (readonly [string, string])[] =
    first && last
      ? [
          [from, first.from],
          [last.to, to],
        ]
      : [[from, to]];
  const joins = ends.flatMap(([start, end]) => joinsBetween(circuit, start, end));
  const parts = partsOfWay(steps).flatMap((name) => circuit.partNamed.get(name) ?? []);
  const isWire = ({ join }: JoinPassed): boolean => join.said === 'wire';
  const place =
    parts[0]?.place ??
    (joins.find(isWire) ?? joins[0])?.join.place ??
    circuit.endNamed.get(from)?.joins[0];
  const related = [
    ...joins.map(({ join }) => ({ place: join.place, message: joinWords(circuit, join) })),
    ...parts.map((part) => alsoPart(part, `${partWords(circuit, part.name)} is on the way.`)),
  ];
  return { place, related: distinct(related, place) };
}

function joinWords(circuit: Circuit, join: Join): string {
  return `This joins ${nameOf(circuit, join.from)} with ${nameOf(circuit, join.to)}.`;
}

/** Related lines without those that stand at the finding's own place or twice. */
export function distinct(
  related: Finding['related'],
  place: Place | undefined,
): Finding['related'] {
  const seen = new Set(place ? [`${place.file} ${place.start}`] : []);
  return related.filter((line) => {
    const key = `${line.place.file} ${line.place.start}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
