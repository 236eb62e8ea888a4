import { endId, type Place, partKinds } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import type { Target } from '../generated/ast.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeAt, placeOf, remark, replacing } from './context.ts';
import { declareMissing } from './declare-missing.ts';
import type { Said } from './said.ts';

/** What a reference means: one terminal, or a whole part whose end is not named. */
export type Meaning =
  | { readonly kind: 'end'; readonly said: Said; readonly end: string; readonly id: string }
  | { readonly kind: 'part'; readonly said: Said }
  | { readonly kind: 'filament'; readonly said: Said };

/** A place in the text that names something, for navigation and for free ends. */
export interface Mention {
  readonly place: Place;
  readonly meaning: Meaning;
}

export interface Naming {
  readonly cx: Lowering;
  readonly all: Collected;
  /** Parts outside any receiver, which no join can reach. */
  readonly patterns: ReadonlyMap<string, unknown>;
  /** Supplies by the short name of their taps. */
  readonly tapHomes: ReadonlyMap<string, readonly Said[]>;
  readonly mentions: Mention[];
  /** How many names meant nothing so far. */
  readonly unknown: { count: number };
}

export function namingOf(
  cx: Lowering,
  all: Collected,
  patterns: ReadonlyMap<string, unknown> = new Map(),
): Naming {
  const tapHomes = new Map<string, Said[]>();
  for (const said of all.parts) {
    if (said.kind !== 'battery' && said.kind !== 'eliminator') continue;
    for (const tap of said.ends) {
      const homes = tapHomes.get(tap);
      if (homes) homes.push(said);
      else tapHomes.set(tap, [said]);
    }
  }
  return { cx, all, patterns, tapHomes, mentions: [], unknown: { count: 0 } };
}

/** Letters stamped on parts beside their ends. */
const stamped: Readonly<Record<string, Readonly<Record<string, readonly [string, string]>>>> = {
  // Audio transformers: plate and battery on the primary, filament and grid on the secondary.
  transformer: {
    P: ['primary', 'start'],
    B: ['primary', 'finish'],
    F: ['secondary', 'start'],
    G: ['secondary', 'finish'],
  },
};

/** Other words for a part's ends: what sockets and condensers are marked with. */
const endWords: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  tube: {
    filament: 'filament-',
    heater: 'filament-',
    'heater-': 'filament-',
    'heater+': 'filament+',
    'F-': 'filament-',
    'F+': 'filament+',
    G: 'grid',
    P: 'plate',
    K: 'cathode',
  },
  condenser: { start: 'rotor', finish: 'stator' },
  crystal: { start: 'mineral', finish: 'whisker' },
  jack: { start: 'tip', finish: 'sleeve' },
};

/** The end of a part that a written word means, if it has such an end. */
export function endOf(said: Said, word: string): string | undefined {
  if (said.ends.includes(word)) return word;
  const other = endWords[said.kind]?.[word];
  if (other !== undefined && said.ends.includes(other)) return other;
  // A fixed condenser's ends are start and finish; an electrolytic's positive and negative.
  if (said.kind === 'condenser') {
    const position = ['start', 'rotor', 'positive'].includes(word)
      ? 0
      : ['finish', 'stator', 'negative'].includes(word)
        ? 1
        : -1;
    return said.ends[position];
  }
  if (said.kind === 'phones' || said.kind === 'horn' || said.kind === 'speaker') {
    if (word === 'positive') return said.ends[0];
    if (word === 'negative') return said.ends[1];
  }
  return undefined;
}

function endMeaning(said: Said, end: string): Meaning {
  return { kind: 'end', said, end, id: endId(said, end) };
}

/** What a written name means, or undefined. Does not remark. */
function meaningOf(naming: Naming, written: string, stage?: string): Meaning | undefined {
  const text = written.replace(/\u2212/g, '-');
  const { named } = naming.all;
  const whole = named.get(text);
  const homes = naming.tapHomes.get(text);
  if (homes && (!whole || whole.kind === 'battery')) {
    const home =
      homes.find((said) => said.stage !== undefined && said.stage === stage) ??
      homes.find((said) => said.stage === undefined) ??
      homes[0];
    if (home) return endMeaning(home, text);
  }
  if (whole) return wholeMeaning(whole);
  // Dots stand before letters; `C-4.5` has none.
  const cut = /^(.+?)\.([A-Za-z_].*)$/.exec(text);
  if (!cut) return undefined;
  return within(naming, named, text);
}

function wholeMeaning(said: Said): Meaning | undefined {
  switch (said.kind) {
    case 'post':
    case 'bus':
      return endMeaning(said, said.ends[0] ?? '');
    case 'selector':
    case 'potentiometer':
      return endMeaning(said, 'arm');
    case 'shield':
      return endMeaning(said, 'shield');
    case 'coil':
    case 'transformer': {
      const only = said.windings.length === 1 ? said.windings[0] : undefined;
      return { kind: 'part', said: only ?? said };
    }
    default:
      return { kind: 'part', said };
  }
}

function within(
  _naming: Naming,
  named: ReadonlyMap<string, Said>,
  text: string,
): Meaning | undefined {
  // Longest part name first: `L1.grid` before `L1`. Tap names may hold dots of their own.
  for (let at = text.length - 1; at > 0; at -= 1) {
    if (text[at] !== '.' || !/[A-Za-z_]/.test(text[at + 1] ?? '')) continue;
    const said = named.get(text.slice(0, at));
    if (!said) continue;
    const word = text.slice(at + 1);
    if (said.kind === 'tube' && (word === 'filament' || word === 'heater'))
      return { kind: 'filament', said };
    const end = endOf(said, word);
    if (end !== undefined) return endMeaning(said, end);
    const letters = stamped[said.kind]?.[word];
    if (letters) {
      const winding = said.windings.find((candidate) => candidate.ownName === letters[0]);
      if (winding) return endMeaning(winding, letters[1]);
    }
    const only = said.windings.length === 1 ? said.windings[0] : undefined;
    const onlyEnd = only && endOf(only, word);
    if (only && onlyEnd) return endMeaning(only, onlyEnd);
    return undefined;
  }
  return undefined;
}

/**
 * What a target means; an unknown name becomes a remark with the nearest names, those of
 * `besides` among them.
 */
export function lookUp(
  naming: Naming,
  target: Target | undefined,
  stage: string | undefined,
  besides: readonly string[] = [],
): Meaning | undefined {
  if (!target?.ref) return undefined;
  const whole = placeOf(naming.cx, target);
  const place = placeAt(naming.cx, whole.start, whole.start + target.ref.length);
  return nameUp(naming, target.ref, place, stage, besides);
}

/** What a name at a place means; an unknown one becomes a remark with the nearest names. */
export function nameUp(
  naming: Naming,
  written: string,
  place: Place,
  stage: string | undefined,
  besides: readonly string[] = [],
): Meaning | undefined {
  const several = homesApart(naming, written, stage);
  if (several) {
    whichTap(naming, written, place, several);
    return undefined;
  }
  const meaning = meaningOf(naming, written, stage);
  if (meaning) naming.mentions.push({ place, meaning });
  else unknownName(naming, written, place, besides);
  return meaning;
}

/** The supplies whose taps have this name, when none of them is the one that is plainly meant. */
function homesApart(naming: Naming, written: string, stage: string | undefined) {
  const name = written.replace(/\u2212/g, '-');
  const homes = naming.tapHomes.get(name);
  const whole = naming.all.named.get(name);
  if (!homes || homes.length < 2 || (whole && whole.kind !== 'battery')) return undefined;
  // A set of two boxes: each stage means the battery that stands in it.
  if (homes.some((home) => home.stage !== undefined && home.stage === stage)) return undefined;
  const shared = homes.filter((home) => home.stage === undefined);
  return shared.length === 1 ? undefined : homes;
}

function whichTap(naming: Naming, written: string, place: Place, homes: readonly Said[]) {
  const { cx } = naming;
  const names = homes.map((home) => `${home.name}.${written}`);
  cx.unread.push(place);
  remark(
    cx,
    'which-end',
    'error',
    place,
    {
      message: `${list(homes.map((home) => home.name))} each have a tap ${written}; which one is meant here?`,
      why: 'A tap goes by its own name alone where only one battery has it.',
      cure: `Write ${list(names.slice(0, 6), 'or')}.`,
    },
    {
      parts: homes.map((home) => home.name),
      fixes: names.slice(0, 6).map((name) => replacing(`Change to ${name}`, place, name)),
    },
  );
}

/** More unknown names than this are a text of another kind: they get no suggestions. */
const MOST_SUGGESTED = 100;

/** Whether part of what the text says of a part stands on a line that cannot be read. */
function isIncomplete(cx: Lowering, said: Said, seen: ReadonlySet<Said> = new Set()): boolean {
  if (said.unread || seen.has(said)) return said.unread;
  const cst = said.node.$cstNode;
  const inside = (place: Place) =>
    cst !== undefined && place.start >= cst.offset && place.end <= cst.end;
  if (cst && cx.unread.some(inside)) return true;
  const deeper = new Set([...seen, said]);
  return [said.owner, said.like?.said].some(
    (other) => other && isIncomplete(other.text ?? cx, other, deeper),
  );
}

function unknownName(naming: Naming, written: string, place: Place, besides: readonly string[]) {
  const { cx, all } = naming;
  const known = ownerIn(all.named, written);
  const lost = known !== undefined && isIncomplete(cx, known);
  cx.unread.push(place);
  // What the name stands for may be said on the line that cannot be read: that has been told of.
  if (lost) return;
  const candidates = [...candidatesFor(naming, known), ...besides];
  naming.unknown.count += 1;
  const likely = naming.unknown.count > MOST_SUGGESTED ? [] : nearest(written, candidates, 3);
  const fixes = likely.map((name) => replacing(`Change to ${name}`, place, name));
  if (known) {
    const part = known;
    remark(
      cx,
      'unknown-name',
      'error',
      place,
      {
        message: `${part.name} has no end or winding called "${written.slice(part.name.length + 1)}".`,
        why: 'What should be joined here is joined to nothing.',
        cure: candidates.length
          ? `It has ${list(candidates.slice(0, 9))}.`
          : 'Say its ends on its own line.',
      },
      { fixes, parts: [part.name] },
    );
    return;
  }
  const outside = written.split('.')[0] ?? '';
  const declaring =
    naming.unknown.count > MOST_SUGGESTED || naming.patterns.has(outside)
      ? []
      : declareMissing(cx, all, written, place);
  remark(
    cx,
    'unknown-name',
    'error',
    place,
    {
      message: `Nothing in this set is called "${written}".`,
      why: 'What should be joined here is joined to nothing.',
      cure: naming.patterns.has(outside)
        ? `${outside} stands outside any receiver: give this set a part of its own, made "like ${outside}".`
        : likely.length
          ? `Did you mean ${list(likely, 'or')}?`
          : 'Write a line that says what it is, or correct the name.',
    },
    { fixes: [...fixes, ...declaring] },
  );
}

/** The part that a dotted name begins with: the longest that there is. */
function ownerIn(named: ReadonlyMap<string, Said>, written: string): Said | undefined {
  for (let at = written.lastIndexOf('.'); at > 0; at = written.lastIndexOf('.', at - 1)) {
    const said = named.get(written.slice(0, at).replace(/\u2212/g, '-'));
    if (said) return said;
  }
  return undefined;
}

export function list(words: readonly string[], last = 'and'): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

function candidatesFor(naming: Naming, part: Said | undefined): string[] {
  if (part) {
    return [
      ...part.ends.map((end) => endId(part, end)),
      ...part.windings.flatMap((winding) => winding.ends.map((end) => endId(winding, end))),
    ];
  }
  const names: string[] = [];
  for (const said of naming.all.parts) {
    if (said.kind === 'battery' || said.kind === 'eliminator') names.push(...said.ends);
    else names.push(said.name);
  }
  return names;
}

/** How a part's first two ends are called, for words. */
export function firstTwo(said: Said): readonly [string, string] | undefined {
  const [first, second] =
    said.kind === 'potentiometer'
      ? ['start', 'finish']
      : said.kind === 'tube'
        ? ['filament-', 'filament+']
        : said.kind === 'winding' || partKinds[said.kind].ends[0] === 'start'
          ? firstAndLast(said)
          : said.ends;
  return first !== undefined && second !== undefined ? [first, second] : undefined;
}

function firstAndLast(said: Said): readonly (string | undefined)[] {
  return said.ends.includes('finish') ? [said.ends[0], 'finish'] : [said.ends[0], said.ends[1]];
}

/** Whether a word is the name of a part or tap, or begins with one. */
export function namesOf(all: Collected): (word: string) => boolean {
  const taps = new Set<string>();
  for (const said of all.parts)
    if (said.kind === 'battery' || said.kind === 'eliminator')
      for (const tap of said.ends) taps.add(tap);
  return (word) => {
    const plain = word.replace(/\u2212/g, '-');
    return taps.has(plain) || all.named.has(plain) || all.named.has(plain.split('.')[0] ?? '');
  };
}
