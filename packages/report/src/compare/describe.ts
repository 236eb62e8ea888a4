import type { Circuit } from '@setwright/circuit';
import {
  calledBy,
  inNaturalOrder,
  jointsOf,
  type Phrase,
  type PlainSet,
  plainSetOf,
  type Word,
} from '@setwright/compare';
import { formatQuantity } from '@setwright/units';
import { visible } from '../text/visible.ts';
import { type Names, namesOf } from './names.ts';

/** Figures kept of an amount: as many as tell two values apart. */
const FIGURES = 9;

/**
 * A set as one line a fact, sorted: the same for two texts that say the same of a set, so that a
 * comparison line by line shows what changed in the set and nothing else.
 */
export function describedSet(circuit: Circuit): string {
  const set = plainSetOf(circuit);
  const jointOf = jointsOf(set);
  const names = namesOf(set);
  const lines = set.things.flatMap(({ id, kind, facts }) => [
    ...Object.entries(facts)
      .sort(([one], [other]) => inNaturalOrder(one, other))
      .flatMap(([slot, phrases]) => factLines(id, kind, slot, phrases, jointOf, names)),
  ]);
  const joints = jointLines(set, jointOf, names);
  const title = circuit.title === '' ? 'without a title' : `"${circuit.title}"`;
  return `${[`receiver ${title}`, ...lines, ...joints].map(visible).join('\n')}\n`;
}

function factLines(
  id: string,
  kind: string,
  slot: string,
  phrases: readonly Phrase[],
  jointOf: (terminal: string) => string,
  names: Names,
): string[] {
  if (kind === 'receiver' && slot === 'title') return [];
  const name = kind === 'receiver' ? 'set' : calledBy(id) === id ? id : `${kind} ${calledBy(id)}`;
  const said = phrases.map((phrase) => phrase.map((word) => spelt(word, jointOf, names)).join(' '));
  return said.sort(inNaturalOrder).map((words) => `${name}  ${slot}  ${words}`);
}

function spelt(word: Word, jointOf: (terminal: string) => string, names: Names): string {
  if (typeof word === 'string') return word;
  if ('value' in word) return formatQuantity(word.value, word.dimension, 'period', FIGURES);
  if ('name' in word) return names.terminal(word.name);
  if ('at' in word) return names.terminal(jointOf(word.at));
  return word.both
    .map((each) => spelt(each, jointOf, names))
    .sort(inNaturalOrder)
    .join(' with ');
}

/** Where each terminal is, by what its junction is best known by. */
function jointLines(set: PlainSet, jointOf: (terminal: string) => string, names: Names): string[] {
  const joined = new Set(set.junctions.flat());
  return set.things
    .flatMap(({ ends }) => ends)
    .flatMap((end) =>
      joined.has(end)
        ? jointOf(end) === end
          ? []
          : [`${names.terminal(end)}  joined to  ${names.terminal(jointOf(end))}`]
        : [`${names.terminal(end)}  joined to nothing`],
    )
    .sort(inNaturalOrder);
}
