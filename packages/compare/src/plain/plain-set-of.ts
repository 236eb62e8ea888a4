import type {
  Bench,
  BenchEntry,
  Circuit,
  Suppose,
  SupposeEdit,
  TubeType,
} from '@setwright/circuit';
import type { Dimension } from '@setwright/units';
import { leadNames } from './lead-names.ts';
import { inNaturalOrder } from './natural-order.ts';
import { amount, amountOf, factsOfPart } from './part-facts.ts';
import { type Facts, type Phrase, phrasesKey, renamePhrase, type Word } from './phrase.ts';
import { type PlainSet, type Thing, wholeSet } from './plain-set.ts';

type Slots = Record<string, readonly Phrase[]>;

/**
 * All that a text says of a set, without places, order and junction numbers. Never throws.
 * Leads, which have no name of their own, are called after the junctions that they join.
 */
export function plainSetOf(circuit: Circuit): PlainSet {
  const set = asWritten(circuit);
  const names = leadNames(set, circuit);
  return inOrder(names.size === 0 ? set : renamed(set, (id) => names.get(id) ?? id));
}

/** The same with leads under the names that the reader of the text gave them. */
export function asWritten(circuit: Circuit): PlainSet {
  const parts = circuit.parts.map(
    (part): Thing => ({
      id: part.name,
      kind: part.kind,
      ...(part.owner === undefined ? {} : { owner: part.owner }),
      ends: part.ends.map(({ id }) => id).sort(inNaturalOrder),
      facts: factsOfPart(circuit, part),
    }),
  );
  const things = [
    setFacts(circuit),
    ...parts,
    ...stages(circuit),
    ...gangs(circuit),
    ...dials(circuit),
    ...benches(circuit),
    ...supposes(circuit),
    ...tubeTypes(circuit),
  ];
  const junctions = circuit.junctions
    .map(({ terminals }) => [...terminals])
    .filter(({ length }) => length > 1);
  return { things: firstOfEach(things), junctions };
}

/** Of two with one id the first stands, as it does for the reader of the text. */
function firstOfEach(things: readonly Thing[]): Thing[] {
  return [...new Map([...things].reverse().map((thing) => [thing.id, thing])).values()];
}

/** The same set, its things and junctions in an order that does not go by the text. */
export function inOrder(set: PlainSet): PlainSet {
  const things = [...set.things].sort((a, b) => inNaturalOrder(a.id, b.id));
  const junctions = set.junctions
    .map((terminals) => [...terminals].sort(inNaturalOrder))
    .sort((a, b) => inNaturalOrder(a[0] ?? '', b[0] ?? ''));
  return { things, junctions };
}

function setFacts(circuit: Circuit): Thing {
  const facts: Slots = { title: [[circuit.title]] };
  if (circuit.year) facts.year = [[amountOf(circuit.year)]];
  if (circuit.tunes) {
    const { low, high } = circuit.tunes;
    const ends = [amountOf(low), amountOf(high)].sort((a, b) => a.value - b.value);
    facts.tunes = [[ends[0] as Word, 'to', ends[1] as Word]];
  }
  if (circuit.notes.length > 0) facts.note = circuit.notes.map(({ text }) => [text]);
  if (circuit.waivers.length > 0) {
    const stageNames = new Set(circuit.stages.map(({ name }) => name));
    facts.meant = circuit.waivers.map(({ check, reason, within }) => [
      check,
      ...(within === undefined ? [] : [idOf(within, stageNames, 'stage')]),
      `“${reason}”`,
    ]);
  }
  return { id: wholeSet, kind: 'receiver', ends: [], facts };
}

function idOf(name: string, known: ReadonlySet<string>, kind: string): Word {
  return { name: known.has(name) ? `${kind}:${name}` : name };
}

function stages(circuit: Circuit): Thing[] {
  return circuit.stages.map(({ name, title, roles }) => ({
    id: `stage:${name}`,
    kind: 'stage',
    ends: [],
    facts: {
      roles: roles.map((role) => [role]),
      ...(title === undefined ? {} : { title: [[title]] }),
    },
  }));
}

function gangs(circuit: Circuit): Thing[] {
  return circuit.gangs.map(({ name, members }) => ({
    id: `gang:${name}`,
    kind: 'gang',
    ends: [],
    facts: { members: members.map((member) => [{ name: member }]) },
  }));
}

function dials(circuit: Circuit): Thing[] {
  const gangNames = new Set(circuit.gangs.map(({ name }) => name));
  return circuit.dials.map(({ name, title, low, high, reversed, drives }) => ({
    id: `dial:${name}`,
    kind: 'dial',
    ends: [],
    facts: {
      ...(title === undefined ? {} : { title: [[title]] }),
      scale: [[amount(low, 'number'), 'to', amount(high, 'number')]],
      ...(reversed ? { words: [['reversed']] } : {}),
      drives: drives.map((driven) => [idOf(driven, gangNames, 'gang')]),
    },
  }));
}

function benches(circuit: Circuit): Thing[] {
  const dialNames = new Set(circuit.dials.map(({ name }) => name));
  return titled('bench', circuit.benches, ({ entries }) =>
    entries.map((entry) => benchWords(entry, dialNames)),
  );
}

function benchWords(entry: BenchEntry, dialNames: ReadonlySet<string>): Phrase {
  const words: Word[] = [entry.kind];
  if (entry.at !== undefined)
    words.push(entry.kind === 'dial' ? idOf(entry.at, dialNames, 'dial') : { name: entry.at });
  if (entry.to !== undefined) words.push('to', { name: entry.to });
  if (entry.value) words.push(amountOf(entry.value));
  if (entry.range) words.push('on', amountOf(entry.range));
  if (entry.text !== undefined) words.push(`“${entry.text}”`);
  return [...words, ...entry.words];
}

function supposes(circuit: Circuit): Thing[] {
  return titled('suppose', circuit.supposes, ({ edits }) => edits.map(editWords));
}

function editWords({ verb, target, other, value, words }: SupposeEdit): Phrase {
  const said: Word[] = [verb];
  if (target !== undefined) said.push({ name: target });
  if (other !== undefined) said.push('and', { name: other });
  if (value) said.push(amountOf(value));
  return [...said, ...words];
}

/** Benches and supposes go by their titles; of several with one title by what they say. */
function titled<T extends Bench | Suppose>(
  kind: 'bench' | 'suppose',
  all: readonly T[],
  linesOf: (each: T) => Phrase[],
): Thing[] {
  const told = all
    .map((each) => ({ title: each.title, lines: linesOf(each) }))
    .map((each) => ({ ...each, key: phrasesKey(each.lines, (id) => id) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  const seen = new Map<string, number>();
  return told.map(({ title, lines }) => {
    const alike = (seen.get(title) ?? 0) + 1;
    seen.set(title, alike);
    const id = `${kind}:${title}${alike === 1 ? '' : ` (${alike})`}`;
    return { id, kind, ends: [], facts: { lines } };
  });
}

/** The tube types that a text describes itself and that its tubes use. */
function tubeTypes(circuit: Circuit): Thing[] {
  const own = new Map<string, TubeType>();
  for (const { tubeType } of circuit.parts)
    if (tubeType && !tubeType.builtIn) own.set(tubeType.name, tubeType);
  return [...own.values()].map((type) => ({
    id: `type:${type.name}`,
    kind: 'tube type',
    ends: [],
    facts: factsOfType(type),
  }));
}

function factsOfType(type: TubeType): Facts {
  const facts: Slots = {};
  const put = (slot: string, value: number | undefined, dimension: Dimension) => {
    if (value !== undefined) facts[slot] = [[amount(value, dimension)]];
  };
  const say = (slot: string, text: string | undefined) => {
    if (text !== undefined) facts[slot] = [[text]];
  };
  say('title', type.title);
  say('base', type.base);
  say('source', type.source);
  put('filament volts', type.filamentVolts, 'voltage');
  put('filament current', type.filamentAmperes, 'current');
  put('amplification', type.amplification, 'ratio');
  put('most plate volts', type.plateLimit, 'voltage');
  put('most screen volts', type.screenLimit, 'voltage');
  const words = (['heated', 'soft', 'screen', 'pentode'] as const).filter((word) => type[word]);
  if (words.length > 0) facts.words = words.map((word) => [word]);
  facts.point = type.points.map((point) => [
    'plate',
    amount(point.plateVolts, 'voltage'),
    ...(point.screenVolts === undefined ? [] : ['screen', amount(point.screenVolts, 'voltage')]),
    'grid',
    amount(point.gridVolts, 'voltage'),
    ...(point.plateAmperes === undefined ? [] : [amount(point.plateAmperes, 'current')]),
    ...(point.screenAmperes === undefined
      ? []
      : ['screen', amount(point.screenAmperes, 'current')]),
    ...(point.plateResistance === undefined ? [] : [amount(point.plateResistance, 'resistance')]),
    ...(point.transconductance === undefined
      ? []
      : ['mutual conductance', amount(point.transconductance, 'ratio')]),
    ...(point.source === undefined ? [] : [point.source]),
  ]);
  facts.capacitance = Object.entries(type.capacitances).map(([between, farads]) => [
    between,
    amount(farads, 'capacitance'),
  ]);
  const { detector } = type;
  if (detector) {
    facts.detector = [
      [
        ...(detector.plateVolts === undefined ? [] : [amount(detector.plateVolts, 'voltage')]),
        ...(detector.returnTo === undefined ? [] : ['return', detector.returnTo]),
        ...(detector.leak
          ? ['leak', ...detector.leak.map((ohms) => amount(ohms, 'resistance'))]
          : []),
        ...(detector.condenser === undefined
          ? []
          : ['condenser', amount(detector.condenser, 'capacitance')]),
      ],
    ];
  }
  return facts;
}

/** The same set with other names. */
function renamed(set: PlainSet, rename: (id: string) => string): PlainSet {
  return {
    things: set.things.map((thing) => ({
      ...thing,
      id: rename(thing.id),
      ...(thing.owner === undefined ? {} : { owner: rename(thing.owner) }),
      ends: thing.ends.map(rename),
      facts: renameFacts(thing.facts, rename, rename),
    })),
    junctions: set.junctions.map((terminals) => terminals.map(rename)),
  };
}

/** Facts with every name in them put through `rename`, and every joint through `rejoin`. */
export function renameFacts(
  facts: Facts,
  rename: (id: string) => string,
  rejoin: (id: string) => string,
): Facts {
  return Object.fromEntries(
    Object.entries(facts).map(([slot, phrases]) => [
      slot,
      phrases.map((phrase) => renamePhrase(phrase, rename, rejoin)),
    ]),
  );
}
