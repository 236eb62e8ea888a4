import type { Amount, Phrase, Word } from '@setwright/compare';
import { formatQuantity } from '@setwright/units';
import { listed } from '../text/words.ts';
import type { Names } from './names.ts';

/** What a phrase says, amounts as their author wrote them. */
export function phraseWords(phrase: Phrase, names: Names): string {
  return phrase.map((word) => wordWords(word, names)).join(' ');
}

/** Several phrases of a slot: `mica and variable`. */
export function phrasesWords(phrases: readonly Phrase[], names: Names): string {
  return listed(phrases.map((phrase) => phraseWords(phrase, names)));
}

function wordWords(word: Word, names: Names): string {
  if (typeof word === 'string') return word;
  if ('value' in word) return amountWords(word);
  if ('name' in word) return names.terminal(word.name);
  if ('at' in word) return names.terminal(word.at);
  return word.both
    .map((each) => names.terminal('name' in each ? each.name : each.at))
    .join(' and ');
}

/** An amount as written; one of which the unit goes without saying gets it said. */
function amountWords({ value, dimension, said }: Amount): string {
  if (!/^[\d\s./]+$/.test(said) || dimension === 'number' || dimension === 'ratio') return said;
  return formatQuantity(value, dimension);
}
