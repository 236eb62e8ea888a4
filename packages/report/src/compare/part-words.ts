import type { Added, EndAdded, EndRemoved, Phrase, Removed, Thing } from '@setwright/compare';
import { listed } from '../text/words.ts';
import { type Names, nounOf } from './names.ts';
import { phrasesWords, phraseWords } from './phrase-words.ts';
import { slotsInOrder, slotWords } from './slots.ts';

/** A part that is new, with its windings: what it is and where it goes. */
export function addedWords(
  { thing, ends }: Added,
  windings: readonly Added[],
  names: Names,
): string {
  const inner = windings.map(
    (each) => `winding ${ownName(each.thing)}${clause(each.thing, endsTo(each, names), names)}`,
  );
  const what = named(thing, names);
  const said = clause(thing, endsTo({ thing, ends }, names), names);
  return `New: ${what}${said}${inner.length > 0 ? `; ${inner.join('; ')}` : ''}.`;
}

/** A part that is gone, with its windings: what it was and where it stood. */
export function removedWords(
  { thing, ends }: Removed,
  windings: readonly Removed[],
  old: Names,
): string {
  const inner = windings.map(
    (each) => `winding ${ownName(each.thing)}${clause(each.thing, endsFrom(each, old), old)}`,
  );
  const what = named(thing, old);
  const said = clause(thing, endsFrom({ thing, ends }, old), old);
  return `Gone: ${what}${said}${inner.length > 0 ? `; ${inner.join('; ')}` : ''}.`;
}

/** A thing with what it is: `condenser C4 (grid condenser)`, `bench “first power-up”`. */
function named(thing: Thing, names: Names): string {
  const { kind, id } = thing;
  const isTitled = kind === 'bench' || kind === 'suppose';
  return `${nounOf(thing)} ${isTitled ? `“${names.thing(id)}”` : names.titled(id)}`;
}

/** The name of a winding within its coil. */
function ownName({ id }: Thing): string {
  return id.slice(id.lastIndexOf('.') + 1);
}

function clause(thing: Thing, joined: string, names: Names): string {
  const said = [factsWords(thing, names), joined].filter((words) => words !== '');
  return said.length > 0 ? `, ${said.join(', ')}` : '';
}

/** What is said of a part, without labels where it goes without saying what is meant. */
function factsWords({ facts, kind }: Thing, names: Names): string {
  const unlabelled = new Set([
    'type',
    'turns',
    'covering',
    'roles',
    'ratio',
    'capacitance',
    'resistance',
    'inductance',
    'volts',
    'ratedCurrent',
    'lines',
  ]);
  return slotsInOrder(Object.keys(facts).filter((slot) => facts[slot]?.length))
    .map((slot): string => {
      const phrases: readonly Phrase[] = facts[slot] ?? [];
      if (slot === 'words') return phrases.map((phrase) => phraseWords(phrase, names)).join(', ');
      if (slot === 'wire') return `of ${phrasesWords(phrases, names)}`;
      if (slot === 'set') return `set to ${phrasesWords(phrases, names)}`;
      if (slot === 'members') return `of ${phrasesWords(phrases, names)}`;
      const label = unlabelled.has(slot) ? '' : leading.has(slot) ? slot : slotWords(slot, kind);
      const words = phrasesWords(phrases, names);
      return label === '' ? words : `${label} ${words}`;
    })
    .filter((words) => words !== '')
    .join(', ')
    .replace(', of ', ' of ')
    .replace(/( of \d+(?: SWG)?), (bare|enamel|SSC|DSC|SCC|DCC)\b/, '$1 $2');
}

const leading: ReadonlySet<string> = new Set([
  'beside',
  'over',
  'inside',
  'around',
  'into',
  'through',
  'at',
  'spaced',
  'found',
  'drives',
  'law',
]);

/** Where the ends of a new part go: `from V1.plate to B+67`, `grid to L2.grid.finish`. */
function endsTo({ thing, ends }: Pick<Added, 'thing' | 'ends'>, names: Names): string {
  return endsWords(
    thing,
    ends.map(({ end, to }: EndAdded) => ({ end, where: to })),
    names,
    'to',
  );
}

function endsFrom({ thing, ends }: Pick<Removed, 'thing' | 'ends'>, names: Names): string {
  return endsWords(
    thing,
    ends.map(({ end, from }: EndRemoved) => ({ end, where: from })),
    names,
    'at',
  );
}

function endsWords(
  thing: Thing,
  ends: readonly { readonly end: string; readonly where: string | undefined }[],
  names: Names,
  word: 'to' | 'at',
): string {
  const place = (where: string | undefined) =>
    where === undefined ? 'nothing' : names.terminal(where);
  const named = ends.map(({ end, where }) => ({ own: end.slice(thing.id.length + 1), where }));
  const start = named.find(({ own }) => own === 'start');
  const finish = named.find(({ own }) => own === 'finish');
  const others = named.filter((each) => each !== start && each !== finish);
  const isLoose = start?.where === undefined && finish?.where === undefined;
  const two =
    start && finish
      ? [isLoose ? 'joined to nothing' : `from ${place(start.where)} to ${place(finish.where)}`]
      : [];
  if (others.length === 1 && others[0]?.own === '') {
    const [only] = others;
    return only.where === undefined ? 'joined to nothing' : `at ${place(only.where)}`;
  }
  const rest = others
    .filter(({ where }) => where !== undefined || thing.kind === 'tube')
    .map(({ own, where }) => `${own} ${word} ${place(where)}`);
  return [...two, ...(rest.length > 0 ? [listed(rest)] : [])].join(', ');
}
