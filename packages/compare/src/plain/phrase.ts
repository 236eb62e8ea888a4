import type { Dimension } from '@setwright/units';

/** A quantity within a phrase: equal where the values are, however they are written. */
export interface Amount {
  /** SI value; percent as a fraction. */
  readonly value: number;
  readonly dimension: Dimension;
  /** As the author wrote it. */
  readonly said: string;
}

/** A part, terminal, stage, gang … by its id. It follows what it names through a change of name. */
export interface Named {
  readonly name: string;
}

/** A junction, by any terminal that is on it: another terminal of the same junction is no other. */
export interface Joint {
  readonly at: string;
}

/** Two that belong together, in either order: the ends of a contact, two coupled windings. */
export interface Pair {
  readonly both: readonly [Named | Joint, Named | Joint];
}

export type Word = string | Amount | Named | Joint | Pair;

/** One thing said of a part: `[2 meg]`, `[14 mmfd, 'to', 365 mmfd]`, `[C1]`. */
export type Phrase = readonly Word[];

/** What is said, by slot; where a slot holds several phrases their order means nothing. */
export type Facts = Readonly<Record<string, readonly Phrase[]>>;

/** The terminal that stands for a junction, by any terminal of it. */
export type JointOf = (terminal: string) => string;

/** Nine figures: what differs by less is the rounding of two ways to write one value. */
const FIGURES = 9;

/** A key that two phrases share if and only if they say the same. */
function phraseKey(phrase: Phrase, jointOf: JointOf): string {
  return JSON.stringify(phrase.map((word) => wordKey(word, jointOf)));
}

function wordKey(word: Word, jointOf: JointOf): string {
  if (typeof word === 'string') return `"${word}`;
  if ('value' in word) return `${word.dimension} ${Number(word.value.toPrecision(FIGURES))}`;
  if ('name' in word) return `=${word.name}`;
  if ('at' in word) return `@${jointOf(word.at)}`;
  return `(${word.both
    .map((each) => wordKey(each, jointOf))
    .sort()
    .join(' ')})`;
}

/** Whether two slots say the same; the order of their phrases means nothing. */
export function samePhrases(
  one: readonly Phrase[],
  other: readonly Phrase[],
  jointOf: JointOf,
): boolean {
  return phrasesKey(one, jointOf) === phrasesKey(other, jointOf);
}

/** A key that two slots share if and only if they say the same. */
export function phrasesKey(phrases: readonly Phrase[], jointOf: JointOf): string {
  return phrases
    .map((phrase) => phraseKey(phrase, jointOf))
    .sort()
    .join('\n');
}

/** Every name in a phrase put through `rename`; joints through `rejoin`. */
export function renamePhrase(
  phrase: Phrase,
  rename: (name: string) => string,
  rejoin: (terminal: string) => string,
): Phrase {
  const one = (word: Named | Joint) =>
    'name' in word ? { name: rename(word.name) } : { at: rejoin(word.at) };
  return phrase.map((word) => {
    if (typeof word === 'string' || 'value' in word) return word;
    if ('both' in word) return { both: [one(word.both[0]), one(word.both[1])] as const };
    return one(word);
  });
}
