import type { Circuit, End, Finding, Part, PartKindName, WindingTap } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import type { Study } from '../study.ts';
import { joinedEnds } from '../wiring/joined-ends.ts';
import { finding, junctionName, listed } from '../words/finding.ts';
import { sentence } from '../words/position-words.ts';

/** Both ends of a part on one junction: a wire goes round it. */
export const shortedPart: Check = {
  id: 'shorted-part',
  group: 'Wiring',
  severity: 'warning',
  summary: 'Both ends of a part are joined by wire, so that nothing passes through it.',
  why: 'A part with a wire round it does nothing; most often two names were mixed up or both ends put in one clip.',
  silent: [
    'A switch, jack or selector that bridges a part in some position is there for that.',
    'A potentiometer or rheostat with its arm on one end is a rheostat.',
    'A closed turn or ring beside another winding of the same coil damps it on purpose.',
    'Shorted dead-end turns of a tapped winding are information only.',
    'Straps between battery taps and posts are no parts.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: readingExample([
    'condenser C3 .001 mfd from V1.plate to GND',
    'condenser C3 .001 mfd from V1.plate to PH1.start',
  ]),
  passes: readingExample(),
  find(study) {
    const { isUsed } = joinedEnds(study.circuit);
    return study.circuit.parts.flatMap((part) => shorted(study, part, isUsed));
  },
};

const passedOver: ReadonlySet<PartKindName> = new Set([
  'battery',
  'eliminator',
  'post',
  'bus',
  'coil',
  'transformer',
  'shield',
  'selector',
]);

function shorted({ circuit }: Study, part: Part, isUsed: (junction: number) => boolean): Finding[] {
  if (passedOver.has(part.kind)) return [];
  const ends = part.kind === 'tube' ? filamentOf(part) : part.ends;
  const first = ends[0];
  if (!first || ends.length < 2) return [];
  const apart = ends.filter((end) => end.junction !== first.junction);
  if (apart.length > 0) return part.taps.length > 0 ? shortedTurns(circuit, part) : [];
  if (part.kind === 'winding' && isRing(circuit, part, isUsed)) return [];
  const what = part.kind === 'tube' ? `the filament of ${part.name}` : part.name;
  const where = junctionName(circuit, first.junction);
  const lines = placesOf(first, ends[1]);
  return [
    finding({
      check: 'shorted-part',
      severity: 'warning',
      message: `${sentence(`${ends.length > 2 ? 'all' : 'both'} ends of ${what}`)} are on ${wordsFor(where, part)}.`,
      why: 'What should pass through it goes round it by wire, so it does nothing.',
      cure: `Give one of its ends another place, or, if it is meant so, write meant shorted-part "why".`,
      place: part.place,
      related: lines
        .filter(({ start, end }) => end <= part.place.start || start >= part.place.end)
        .map((place) => ({ place, message: `This joins an end of ${part.name}.` })),
      parts: [part.name],
    }),
  ];
}

/** The junction by name, unless it has no name but the part's own. */
function wordsFor(where: string, part: Part): string {
  return where.startsWith(`${part.name}.`) ? 'one point' : where;
}

function placesOf(...ends: readonly (End | undefined)[]) {
  const seen = new Set<number>();
  return ends
    .flatMap((end) => end?.joins ?? [])
    .filter(({ start }) => !seen.has(start) && seen.add(start))
    .slice(0, 6);
}

const filamentOf = (tube: Part) =>
  tube.ends.filter(({ name }) => name === 'filament-' || name === 'filament+');

/** A closed winding of an air-core coil that has another winding in use: a ring that damps. */
function isRing(circuit: Circuit, part: Part, isUsed: (junction: number) => boolean): boolean {
  const coil = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  if (coil?.kind !== 'coil') return false;
  return circuit.parts.some(
    (other) =>
      other.owner === part.owner &&
      other !== part &&
      other.ends.some((end) => isShared(circuit, end) && isUsed(end.junction)),
  );
}

const isShared = (circuit: Circuit, end: End) =>
  (circuit.junctions[end.junction]?.terminals.length ?? 0) > 1;

/** Pieces of a tapped part with a wire round them, where others are left. */
function shortedTurns(circuit: Circuit, part: Part): Finding[] {
  const end = (name: string) => part.ends.find((candidate) => candidate.name === name);
  const inOrder = [
    end('start'),
    ...[...part.taps].sort(byFraction).map((tap) => end(tap.end)),
    end('finish'),
  ].filter((found) => found !== undefined);
  const at = new Map<number, End[]>();
  for (const found of inOrder) {
    const here = at.get(found.junction);
    if (here) here.push(found);
    else at.set(found.junction, [found]);
  }
  const together = [...at.values()].filter((here) => here.length > 1);
  return together.map((here) =>
    finding({
      check: 'shorted-part',
      severity: 'information',
      message: `The turns of ${part.name} between ${listed(here.map(({ name }) => name))} have a wire round them, at ${wordsFor(junctionName(circuit, here[0]?.junction ?? -1), part)}.`,
      why: 'Shorted turns leave the rest of the winding with less inductance and more loss; many sets shorted dead ends so.',
      cure: 'Nothing need be done if that is what the set has.',
      place: part.place,
      parts: [part.name],
    }),
  );
}

const byFraction = (a: WindingTap, b: WindingTap) => (a.fraction ?? 0.5) - (b.fraction ?? 0.5);
