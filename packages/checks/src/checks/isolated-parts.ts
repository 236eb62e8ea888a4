import type { Circuit, Finding, Part, PartKindName } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** How many lines are pointed at besides the first. */
const MOST_RELATED = 20;
/** How many parts are named in the message. */
const MOST_NAMED = 6;

/** Parts that no path of any kind ties to the rest of the set. */
export const isolatedParts: Check = {
  id: 'isolated-parts',
  group: 'Wiring',
  severity: 'warning',
  summary: 'Parts that nothing ties to the rest of the set, neither wire nor field.',
  why: 'They cannot do anything for the set; most often a wire is missing, or their line has not been finished.',
  silent: [
    'Windings of one coil or transformer are tied by their field, so an aerial circuit may stand apart.',
    'A loop, wave trap or other circuit with an air-core winding works by its field, wherever it stands.',
    'Condensers and tubes tie what is on their two sides.',
    'What a switch, selector or jack reaches in any position is tied, and so is a plug to its jack.',
    'Posts and buses are told of by unused-post, and unused battery taps are no fault.',
    'A set of which nothing is joined yet is told so once.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: readingExample(['condenser C3 .001 mfd from V1.plate to GND', 'condenser C3 .001 mfd']),
  passes: readingExample(),
  find(study) {
    const groups = groupsOf(study.circuit);
    const [main] = groups;
    if (!main) return [];
    if (study.circuit.joins.length === 0) return [nothingJoined(study, groups)];
    return groups
      .slice(1)
      .filter((group) => !worksByField(study.circuit, group))
      .map((group) => isolated(study.circuit, group, main));
  },
};

const onlyNames: ReadonlySet<PartKindName> = new Set(['post', 'bus', 'coil', 'transformer']);

/** The parts in groups that something ties together: the largest first, then by the text. */
function groupsOf(circuit: Circuit): Part[][] {
  const above = new Map<string, string>();
  const root = (name: string): string => {
    let at = name;
    for (let up = above.get(at); up !== undefined && up !== at; up = above.get(at)) {
      above.set(at, above.get(up) ?? up);
      at = up;
    }
    return at;
  };
  const tie = (a: string, b: string) => {
    const from = root(a);
    const to = root(b);
    if (from !== to) above.set(from, to);
  };
  const junctionOf = (terminal: string) =>
    `junction ${circuit.endNamed.get(terminal)?.junction ?? -1}`;
  const known = new Set(circuit.parts.map(({ name }) => name));
  for (const part of circuit.parts) {
    const self = `part ${part.name}`;
    for (const end of part.ends) tie(`junction ${end.junction}`, self);
    if (part.owner !== undefined) tie(self, `part ${part.owner}`);
    for (const { from, to } of part.contacts) {
      tie(junctionOf(from), self);
      tie(junctionOf(to), self);
    }
    for (const other of part.companions) if (known.has(other)) tie(self, `part ${other}`);
  }
  const groups = new Map<string, Part[]>();
  for (const part of circuit.parts) {
    if (onlyNames.has(part.kind)) continue;
    const key = root(`part ${part.name}`);
    const group = groups.get(key);
    if (group) group.push(part);
    else groups.set(key, [part]);
  }
  return [...groups.values()].sort((a, b) => b.length - a.length);
}

/**
 * Whether a group holds an air-core winding that is joined to something: what it does, it does by
 * its field, and how near it stands to another coil is not for the text to say.
 */
function worksByField(circuit: Circuit, group: readonly Part[]): boolean {
  return group.some((part) => {
    const isAir =
      part.kind === 'loop' ||
      part.kind === 'variometer' ||
      (part.kind === 'winding' && isOnAir(circuit, part));
    return (
      isAir &&
      part.ends.some(({ junction }) => (circuit.junctions[junction]?.terminals.length ?? 0) > 1)
    );
  });
}

function isOnAir(circuit: Circuit, winding: Part): boolean {
  const owner = winding.owner === undefined ? undefined : circuit.partNamed.get(winding.owner);
  return owner?.kind === 'coil' || owner?.words.has('air') === true;
}

/** Kinds that are said by one line, without a block. */
const lineAlone: ReadonlySet<PartKindName> = new Set([
  'condenser',
  'resistor',
  'leak',
  'rheostat',
  'choke',
  'phones',
  'crystal',
  'lamp',
  'fuse',
]);

function isolated(
  { gangs, dials, waivers }: Circuit,
  group: readonly Part[],
  main: readonly Part[],
): Finding {
  const [first] = group;
  const names = group.map(({ name }) => name);
  const named = listed(
    names.length > MOST_NAMED
      ? [...names.slice(0, MOST_NAMED), `${names.length - MOST_NAMED} more`]
      : names,
  );
  const alone = names.length === 1;
  const elsewhere = new Set([
    ...gangs.flatMap(({ members }) => members),
    ...dials.flatMap(({ drives }) => drives),
    ...waivers.flatMap(({ parts }) => parts),
  ]);
  return finding({
    check: 'isolated-parts',
    severity: 'warning',
    message: alone
      ? `${named} is joined to nothing.`
      : `${named} are joined to each other only; nothing ties them to ${main[0]?.name ?? 'the rest'} and the rest of the set.`,
    why: alone
      ? 'A part that nothing is joined to does nothing in the set.'
      : 'Without a wire or a field between them they do nothing for the set.',
    cure: alone
      ? 'Say where its ends go, or take it out of the text.'
      : 'Say where they join the rest: a common return is most often what is missing.',
    place: first?.place ?? { file: '', start: 0, end: 0 },
    related: group.slice(1, MOST_RELATED + 1).map((part) => alsoPart(part, 'This is one of them.')),
    parts: names,
    // What stands in a block of its own, or is named elsewhere, is not taken out by one line.
    fixes:
      alone &&
      first &&
      first.owner === undefined &&
      lineAlone.has(first.kind) &&
      !elsewhere.has(first.name)
        ? [{ title: `Take ${first.name} out`, edits: [{ place: first.place, text: '' }] }]
        : [],
  });
}

function nothingJoined({ circuit }: Study, groups: readonly (readonly Part[])[]): Finding {
  return finding({
    check: 'isolated-parts',
    severity: 'information',
    message: 'Nothing in this set is joined to anything yet.',
    why: 'Wiring can be judged once the ends of the parts are joined.',
    cure: 'Say where the ends go: from … to … on the parts, or wire X to Y lines.',
    place: circuit.namePlace,
    parts: groups.flatMap((group) => group.map(({ name }) => name)),
  });
}
