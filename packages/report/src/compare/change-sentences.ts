import type { Changed, Differences, Phrase } from '@setwright/compare';
import { listed } from '../text/words.ts';
import { type Names, nounOf } from './names.ts';
import { phraseWords } from './phrase-words.ts';
import type { Sentence, SentenceKind } from './sentence.ts';
import { onlySaid, slotWords } from './slots.ts';

/** Kinds that are words about a set and no part of it. */
const besides: ReadonlySet<string> = new Set(['receiver', 'stage', 'bench', 'suppose']);

/** What is said otherwise of parts that live on. */
export function changeSentences(
  { changed, tapsRenamed }: Differences,
  old: Names,
  now: Names,
): Sentence[] {
  const formerly = new Map(tapsRenamed.map(({ before, after }) => [after, old.terminal(before)]));
  return changed
    .filter((each) => !followsFromKind(each, changed))
    .map((each): Sentence => {
      const isAbout = besides.has(each.kind) || onlySaid.has(each.slot);
      const kind: SentenceKind = isAbout ? 'said' : 'changed';
      const parts = besides.has(each.kind) ? [] : partsOf(each);
      return {
        kind,
        text: changeWords(each, old, now, formerly),
        brief: briefOf(each, now),
        before: [],
        after: parts,
      };
    });
}

/** The part; of a battery's taps those that are not what they were. */
function partsOf({ thing, kind, slot, before, after }: Changed): string[] {
  if (slot !== 'taps' || (kind !== 'battery' && kind !== 'eliminator')) return [thing];
  const was = before.map((phrase) => JSON.stringify(phrase));
  return after
    .filter((phrase) => !was.includes(JSON.stringify(phrase)))
    .flatMap(([tap]) =>
      tap !== undefined && typeof tap !== 'string' && 'name' in tap ? tap.name : [],
    );
}

/** Words for a drawing, which shows what is: what was. */
function briefOf({ slot, before, after }: Changed, now: Names): string {
  const [was] = before;
  if (!was || before.length > 1 || after.length > 1 || slot === 'kind') return '';
  return `was ${phraseWords(was, now)}`;
}

/** What a part of another kind takes along needs no sentence of its own. */
function followsFromKind({ thing, slot }: Changed, all: readonly Changed[]): boolean {
  return (
    slot === 'words' &&
    all.some((other) => other.thing === thing && other.slot === 'kind') &&
    all.some((other) => other.thing === thing && other.slot === 'words')
  );
}

function changeWords(
  change: Changed,
  old: Names,
  now: Names,
  formerly: ReadonlyMap<string, string>,
): string {
  const { thing, kind, slot, before, after } = change;
  const name = now.titled(thing);
  const [was, is] = [before[0], after[0]];
  if (slot === 'title') return titleWords(change, now);
  if (slot === 'kind' && was && is) return `${name} is a ${noun(is)} now, and was a ${noun(was)}.`;
  if (slot === 'type' && was && is)
    return `${name} is ${article(is)} ${phraseWords(is, now)} now, and was ${article(was)} ${phraseWords(was, old)}.`;
  if (slot === 'taps') return tapWords(change, now, formerly);
  if (slot === 'turns' && was && is)
    return `${name} has ${phraseWords(is, now)} now, and had ${phraseWords(was, now)}.`;
  if (slot === 'set' && was && is)
    return `${name} is set to ${phraseWords(is, now)} now, and was set to ${phraseWords(was, now)}.`;
  const verb = verbs[slot];
  if (verb !== undefined) return heldWords(change, verb, name, now);
  const subject = subjectOf(slot, kind, name);
  if (before.length <= 1 && after.length <= 1 && !lists.has(slot)) {
    if (was && is)
      return `${subject} is ${phraseWords(is, now)} now, and was ${phraseWords(was, now)}.`;
    if (is) return onlyNow(change, subject, name, phraseWords(is, now));
    return onlyBefore(change, subject, name, phraseWords(was ?? [], now));
  }
  const [gone, fresh] = listsApart(before, after, now).map((all) =>
    all.map((each) => quotedIn(slot, each)),
  ) as [string[], string[]];
  const told = [
    ...(gone.length > 0 ? [`no longer ${gone.join('; ')}`] : []),
    ...(fresh.length > 0 ? [`now ${fresh.join('; ')}`] : []),
  ];
  const all = told.length > 0 ? told.join('; ') : 'the same words in another form';
  return `${subject}: ${all}.`.replace(/([.!?]”)\.$/, '$1');
}

/** Slots that hold a list, of which what came and went is told. */
const lists: ReadonlySet<string> = new Set([
  'lines',
  'note',
  'meant',
  'contacts',
  'point',
  'capacitances',
]);

/** What a part does with what a slot names. */
const verbs: Readonly<Record<string, string>> = {
  words: 'is',
  drives: 'drives',
  members: 'holds',
  stage: 'stands in stage',
  beside: 'lies beside',
  over: 'lies over',
  inside: 'lies inside',
  around: 'shields',
  into: 'is plugged into',
  through: 'carries, when empty, its current through',
  studs: 'reaches',
};

/** What a part has to do with others: `D2 drives G1 now, and no longer C2`. */
function heldWords({ before, after }: Changed, verb: string, name: string, now: Names): string {
  const [gone, fresh] = listsApart(before, after, now);
  if (fresh.length === 0 && gone.length > 0)
    return verb.startsWith('is')
      ? `${name} is no longer ${`${verb.slice(3)} ${listed(gone)}`.trim()}.`
      : `${name} no longer ${verb} ${listed(gone)}.`;
  const not = gone.length > 0 ? `, and no longer ${listed(gone)}` : '';
  return `${name} ${verb} ${listed(fresh)} now${not}.`;
}

function subjectOf(slot: string, kind: Changed['kind'], name: string): string {
  if (kind === 'bench' || kind === 'suppose') return `The ${kind} “${name}”`;
  if (kind === 'receiver') return setSlots[slot] ?? `The ${slot} of the set`;
  const label = slotWords(slot, kind);
  if (slot === 'turns') return `The number of turns of ${name}`;
  return label === '' ? name : `The ${label} of ${name}`;
}

const setSlots: Readonly<Record<string, string>> = {
  tunes: 'The band that it tunes',
  year: 'The year of the set',
  note: 'The notes',
  meant: 'What is meant so on purpose',
};

function onlyNow({ slot, kind }: Changed, subject: string, name: string, words: string): string {
  if (slot === 'found') return `${name} was found to be ${words} on the bench.`;
  if (slotWords(slot, kind) === '')
    return `${name} is given as ${words} now; nothing was said of it.`;
  return `${subject} is given now: ${words}.`;
}

function onlyBefore({ slot, kind }: Changed, subject: string, name: string, words: string): string {
  if (slotWords(slot, kind) === '')
    return `What ${name} is worth is no longer said; it was ${words}.`;
  return `${subject} is no longer said; it was ${words}.`;
}

function titleWords({ thing, kind, before, after }: Changed, now: Names): string {
  const quoted = (phrases: readonly Phrase[]) =>
    phrases[0] ? `“${phraseWords(phrases[0], now)}”` : undefined;
  const [was, is] = [quoted(before), quoted(after)];
  const name = kind === 'receiver' ? 'The set' : now.thing(thing);
  if (was !== undefined && is !== undefined)
    return `The title of ${name} is ${is} now, and was ${was}.`.replace('of The', 'of the');
  return is === undefined
    ? `${name} has no title now; it was ${was}.`
    : `${name} has the title ${is} now.`;
}

/** Taps by their names: what is new, gone, and at another place. */
function tapWords(
  { thing, kind, before, after }: Changed,
  now: Names,
  formerly: ReadonlyMap<string, string>,
): string {
  const byName = (phrases: readonly Phrase[]) =>
    new Map(
      phrases.map(([tap, ...rest]) => {
        const name = tap !== undefined && typeof tap !== 'string' && 'name' in tap ? tap.name : '';
        return [name, phraseWords(rest, now)] as const;
      }),
    );
  const [was, is] = [byName(before), byName(after)];
  const called = (id: string) => {
    const earlier = formerly.get(id);
    return `${tapName(id, now)}${earlier === undefined ? '' : `, formerly ${lastOf(earlier).replace(/^tap(?=\d)/, 'tap ')},`}`;
  };
  const told = [...is].flatMap(([id, words]) => {
    const earlier = was.get(id);
    if (earlier === undefined) return [`${called(id)}${words === '' ? '' : ` at ${words}`} is new`];
    if (earlier === words) return [];
    const isSupply = kind === 'battery' || kind === 'eliminator';
    const unsaid = isSupply ? 'volts not said' : 'a place not said';
    return [`${called(id)} is at ${words || unsaid} now, and was at ${earlier || unsaid}`];
  });
  const gone = [...was].flatMap(([id, words]) =>
    is.has(id) ? [] : [`${called(id)}${words === '' ? '' : `, at ${words},`} is gone`],
  );
  return `Taps of ${now.titled(thing)}: ${[...told, ...gone].join('; ')}.`;
}

/** The last name of a terminal; a tap's own name may hold a dot before a figure, as `C-4.5` does. */
const lastOf = (id: string) => id.slice(id.search(/[^.]+(\.[0-9][^.]*)?$/));

/** Free words of the author as such. */
function quotedIn(slot: string, words: string): string {
  return slot === 'note' ? `“${words}”` : words;
}

/** The last name of a tap: `B+67`, `tap 4`. */
function tapName(id: string, now: Names): string {
  const shown = lastOf(now.terminal(id));
  const [, turn] = /^tap(\d.*)$/.exec(shown) ?? [];
  return turn === undefined ? shown : `tap ${turn}`;
}

/** Of two lists what is only in the one and only in the other. */
function listsApart(
  before: readonly Phrase[],
  after: readonly Phrase[],
  now: Names,
): [string[], string[]] {
  const was = before.map((phrase) => phraseWords(phrase, now));
  const is = after.map((phrase) => phraseWords(phrase, now));
  const without = (all: readonly string[], others: readonly string[]) => {
    const left = [...others];
    return all.filter((each) => {
      const at = left.indexOf(each);
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    });
  };
  return [without(was, is), without(is, was)];
}

function noun(phrase: Phrase): string {
  const [kind] = phrase;
  return typeof kind === 'string' ? nounOf({ kind } as Parameters<typeof nounOf>[0]) : '';
}

const article = ([word]: Phrase): string =>
  typeof word === 'string' && /^[aeiou08]|^1[18](?!\d)/i.test(word) ? 'an' : 'a';
