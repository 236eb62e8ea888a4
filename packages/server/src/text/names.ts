import type { Circuit, Part, Place } from '@setwright/circuit';
import type { Item, Mention, ReadFile } from '@setwright/language';
import type { Block } from './blocks.ts';
import { type Tokens, tokensOf } from './tokens.ts';

export type NamedKind =
  | 'receiver'
  | 'stage'
  | 'part'
  | 'tap'
  | 'terminal'
  | 'gang'
  | 'dial'
  | 'type';

/** Something that the text gives a name and calls by it. */
export interface Named {
  readonly kind: NamedKind;
  /** Its full name: `L1.grid`, `V1.plate`, `B.B+67`, `01-A`. */
  readonly name: string;
  /** Which receiver of the file; -1 for what stands outside: tube types and patterns. */
  readonly receiver: number;
  /** Where it is declared; undefined for a terminal without a word of its own, and the library. */
  readonly declared: Pick<Place, 'start' | 'end'> | undefined;
  /** The statement that declares it, without its block. */
  readonly statement: Pick<Place, 'start' | 'end'> | undefined;
  /** Where it is declared in a file that the text uses: its name, and its line without its block. */
  readonly elsewhere?: { readonly name: Place; readonly statement: Place };
}

/** A place in the text that names something. */
export interface Occurrence {
  readonly start: number;
  readonly end: number;
  readonly named: Named;
  readonly isDeclaration: boolean;
}

/** All names of a text. */
export interface Names {
  /** In order of the text; they do not overlap. */
  readonly occurrences: readonly Occurrence[];
  readonly all: readonly Named[];
  readonly at: (offset: number) => Occurrence | undefined;
  readonly of: (named: Named) => readonly Occurrence[];
  /** Which receiver an offset stands in; -1 for none. */
  readonly receiverAt: (offset: number) => number;
  readonly find: (receiver: number, kind: NamedKind, name: string) => Named | undefined;
}

/** Finds the names of a text. Linear in its length, but for the nesting of blocks. */
export function namesOf(file: ReadFile, items: readonly Item[], blocks: readonly Block[]): Names {
  const tokens = tokensOf(items);
  const spans = receiverSpans(file, blocks);
  const made = new Map<string, Named>();
  const found = new Map<number, Occurrence>();
  const keyOf = ({ receiver, kind, name }: Pick<Named, 'receiver' | 'kind' | 'name'>): string =>
    `${receiver} ${kind} ${name}`;
  const find: Names['find'] = (receiver, kind, name) => made.get(keyOf({ receiver, kind, name }));
  const name = (one: Named): Named => {
    const known = made.get(keyOf(one));
    if (known) return known;
    made.set(keyOf(one), one);
    return one;
  };
  const add = (start: number, end: number, named: Named, isDeclaration = false): void => {
    if (end > start && !found.has(start)) found.set(start, { start, end, named, isDeclaration });
  };
  const declare = (
    kind: NamedKind,
    called: string,
    receiver: number,
    place: Pick<Place, 'start' | 'end'> | undefined,
    statement: Pick<Place, 'start' | 'end'>,
  ): void => {
    const named = name({ kind, name: called, receiver, declared: place, statement });
    // A second one of the same name is another thing; what it is called means the first.
    if (place) add(place.start, place.end, named, true);
  };

  for (const type of file.ownTypes) {
    const at = tokens.within(type.place)[2];
    declare('type', type.name, -1, at, type.place);
  }
  for (const [receiver, circuit] of file.circuits.entries())
    declareAll(circuit, receiver, tokens, file.text, declare);
  // Windings that it has from another pattern have no words of their own.
  for (const { said } of file.ownPatterns)
    for (const part of [said, ...said.windings])
      if (part === said || part.namePlace.start !== said.namePlace.start)
        declare('part', part.name, -1, part.namePlace, part.place);
  for (const { place, pattern } of file.likes) {
    const isOwn = pattern.place.file === file.file;
    const own = isOwn ? find(-1, 'part', pattern.name) : undefined;
    const { place: statement, namePlace } = pattern;
    const elsewhere = { name: namePlace, statement };
    const named = own ?? name(outside('part', pattern.name, elsewhere));
    add(place.start, place.end, named);
  }
  const receiverAt = (offset: number): number =>
    spans.findIndex(({ start, end }) => start <= offset && offset <= end);
  for (const mention of inOwnPlace(file, blocks)) {
    const receiver = receiverAt(mention.place.start);
    for (const segment of segmentsOf(mention, file.text)) {
      const named =
        find(receiver, segment.kind, segment.name) ??
        name({ ...segment, receiver, declared: undefined, statement: undefined });
      add(segment.start, segment.end, named);
    }
  }
  for (const [receiver, circuit] of file.circuits.entries())
    for (const use of otherUses(circuit, tokens)) {
      const known =
        find(use.kind === 'type' ? -1 : receiver, use.kind, use.name) ??
        (use.kind === 'type'
          ? name(outside('type', use.name, typeElsewhere(file, use.name)))
          : undefined);
      if (known) add(use.start, use.end, known);
    }

  const occurrences = withoutOverlaps([...found.values()].sort((a, b) => a.start - b.start));
  const byNamed = new Map<Named, Occurrence[]>();
  for (const each of occurrences) {
    const list = byNamed.get(each.named);
    if (list) list.push(each);
    else byNamed.set(each.named, [each]);
  }
  return {
    occurrences,
    all: [...made.values()],
    at: (offset) => occurrenceAt(occurrences, offset),
    of: (named) => byNamed.get(named) ?? [],
    receiverAt,
    find,
  };
}

/** Something that stands outside this text. */
const outside = (kind: NamedKind, name: string, elsewhere: Named['elsewhere']): Named => ({
  kind,
  name,
  receiver: -1,
  declared: undefined,
  statement: undefined,
  ...(elsewhere ? { elsewhere } : {}),
});

/** Where a used file describes a tube type; undefined for one of the library. */
function typeElsewhere({ types }: ReadFile, name: string): Named['elsewhere'] {
  const type = types.get(name);
  if (!type || type.builtIn) return undefined;
  // Its place is that of the whole line, which begins with `tube type` and its name.
  return { name: type.place, statement: type.place };
}

type Declare = (
  kind: NamedKind,
  name: string,
  receiver: number,
  place: Pick<Place, 'start' | 'end'> | undefined,
  statement: Pick<Place, 'start' | 'end'>,
) => void;

function declareAll(
  circuit: Circuit,
  receiver: number,
  tokens: Tokens,
  text: string,
  declare: Declare,
): void {
  // Where no title can be read it has the place of the whole, which may begin with any sign.
  const { start, end } = circuit.namePlace;
  const titled = /^"[^"]*"$/.test(text.slice(start, end));
  declare(
    'receiver',
    circuit.title,
    receiver,
    titled ? circuit.namePlace : undefined,
    circuit.place,
  );
  for (const { name, namePlace, place } of circuit.stages)
    declare('stage', name, receiver, namePlace, place);
  for (const part of circuit.parts) {
    if (part.kind === 'lead') continue;
    // A battery of which only the taps could be read has no name that stands anywhere.
    const named = part.name.startsWith('?') ? undefined : part.namePlace;
    declare('part', part.name, receiver, named, part.place);
    for (const { end, place } of part.supplyTaps)
      declare('tap', `${part.name}.${end}`, receiver, tokens.within(place)[1], place);
    // The turns of a tap are its name, where they are said one by one.
    for (const { end, place } of part.taps) {
      const [only, more] = tokens.within(place);
      declare('terminal', `${part.name}.${end}`, receiver, more ? undefined : only, place);
    }
  }
  for (const gang of circuit.gangs)
    declare('gang', gang.name, receiver, tokens.within(gang.place)[1], gang.place);
  for (const dial of circuit.dials)
    declare('dial', dial.name, receiver, tokens.within(dial.place)[1], dial.place);
}

interface Use {
  readonly kind: NamedKind;
  readonly name: string;
  readonly start: number;
  readonly end: number;
}

/** Names that are used where the reading of the text does not note what they mean. */
function otherUses(circuit: Circuit, tokens: Tokens): readonly Use[] {
  const uses: Use[] = [];
  const use = (kind: NamedKind, name: string, { start, end }: Item): Use => ({
    kind,
    name,
    start,
    end,
  });
  for (const part of circuit.parts) {
    if (part.kind !== 'tube' || part.typeName === undefined) continue;
    const written = tokens
      .within(part.place)
      .slice(2)
      .find(({ image }) => image === part.typeName);
    if (written) uses.push(use('type', part.typeName, written));
  }
  for (const dial of circuit.dials) {
    const words = tokens.within(dial.place);
    const from = words.findIndex(({ image }) => image === 'drives');
    if (from < 0) continue;
    for (const word of words.slice(from + 1))
      if (circuit.gangs.some(({ name }) => name === word.image))
        uses.push(use('gang', word.image, word));
  }
  for (const { entries } of circuit.benches)
    for (const { kind, at, place } of entries) {
      const written = kind === 'dial' ? tokens.within(place)[1] : undefined;
      if (written && at !== undefined) uses.push(use('dial', at, written));
    }
  return uses;
}

/**
 * Every mention once. The words of a part that another is made like are read for both: what they
 * name is what they name for the part that they stand in.
 */
function inOwnPlace({ mentions }: ReadFile, blocks: readonly Block[]): readonly Mention[] {
  const at = new Map<number, Mention[]>();
  for (const mention of mentions) {
    const others = at.get(mention.place.start);
    if (others) others.push(mention);
    else at.set(mention.place.start, [mention]);
  }
  const stretch = (start: number): Block | undefined => {
    let here = blocks;
    for (;;) {
      const next = here.find((block) => block.start <= start && start < block.end);
      if (!next || next.start === start) return next;
      here = next.blocks;
    }
  };
  return [...at.values()].flatMap((several) => {
    if (several.length === 1) return several;
    const own = several.find(({ place, meaning }) => {
      const owner = meaning.said.owner ?? meaning.said;
      const block = stretch(owner.place.start);
      return block !== undefined && block.start <= place.start && place.end <= block.end;
    });
    return own ?? several[0] ?? [];
  });
}

interface Segment {
  readonly kind: 'part' | 'tap' | 'terminal';
  readonly name: string;
  readonly start: number;
  readonly end: number;
}

/** What each word of a dotted name means: `L1.grid.finish` is a coil, a winding, a terminal. */
function segmentsOf({ place, meaning }: Mention, text: string): readonly Segment[] {
  const written = text.slice(place.start, place.end).replace(/\u2212/g, '-');
  const { said } = meaning;
  const end = meaning.kind === 'end' ? meaning.end : undefined;
  const isTap = end !== undefined && (said.kind === 'battery' || said.kind === 'eliminator');
  const segments: Segment[] = [];
  let at = 0;
  const take = (kind: Segment['kind'], name: string, length: number): void => {
    const start = place.start + at;
    segments.push({ kind, name, start, end: start + length });
    at += length + 1;
  };
  const begins = (word: string): boolean =>
    word !== '' && (written === word || written.startsWith(`${word}.`));
  if (isTap && written === end) {
    take('tap', `${said.name}.${end}`, written.length);
    return segments;
  }
  if (said.owner && begins(said.owner.name)) take('part', said.owner.name, said.owner.name.length);
  const rest = written.slice(at);
  const own = said.owner ? said.ownName : said.name;
  if (rest === own || rest.startsWith(`${own}.`)) take('part', said.name, own.length);
  const last = written.slice(at);
  if (last !== '' && end !== undefined)
    take(isTap ? 'tap' : 'terminal', `${said.name}.${end}`, last.length);
  else if (last !== '' && meaning.kind === 'filament')
    take('terminal', `${said.name}.filament-`, last.length);
  return segments;
}

/** From where to where the receivers of a text go, in the order of the circuits. */
function receiverSpans(
  { circuits, text }: ReadFile,
  blocks: readonly Block[],
): readonly Pick<Place, 'start' | 'end'>[] {
  return circuits.map(({ place }, index) => {
    const block = blocks.find(({ start }) => start === place.start);
    const next = circuits[index + 1]?.place.start ?? text.length;
    return { start: place.start, end: block?.end ?? next };
  });
}

function withoutOverlaps(sorted: readonly Occurrence[]): readonly Occurrence[] {
  let end = 0;
  return sorted.filter((each) => {
    if (each.start < end) return false;
    end = each.end;
    return true;
  });
}

/** The occurrence at an offset: one that it stands in, else one that ends at it. */
function occurrenceAt(all: readonly Occurrence[], offset: number): Occurrence | undefined {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((all[middle]?.start ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  const last = all[low - 1];
  return last && offset <= last.end ? last : undefined;
}

/** The part that a named thing is, or belongs to. */
export function partOf(circuit: Circuit, { kind, name }: Named): Part | undefined {
  if (kind === 'part') return circuit.partNamed.get(name);
  if (kind === 'tap' || kind === 'terminal') return circuit.partOfEnd.get(endIdOf(circuit, name));
  return undefined;
}

/** The full name of the end that a terminal or tap is; posts and buses are their own terminals. */
export function endIdOf(circuit: Circuit, name: string): string {
  if (circuit.endNamed.has(name)) return name;
  const short = name.slice(0, name.indexOf('.'));
  return circuit.endNamed.has(short) ? short : name;
}
