import {
  type Differences,
  inNaturalOrder,
  type Phrase,
  type PlainSet,
  type Renamed,
} from '@setwright/compare';
import { listed } from '../text/words.ts';
import { changeSentences } from './change-sentences.ts';
import { moveSentences } from './move-sentences.ts';
import { atBeginning, type Names, namesOf, nounOf } from './names.ts';
import { addedWords, removedWords } from './part-words.ts';
import type { Sentence } from './sentence.ts';

/** More new names than this are told of in one sentence. */
const FEW = 2;

/**
 * How two sets differ, a sentence each: what is gone, what is new, what changed, what is joined
 * otherwise, what is called otherwise, and what is only said otherwise. Empty for the same set.
 */
export function sentencesOf(old: PlainSet, now: PlainSet, differences: Differences): Sentence[] {
  const [before, after] = [namesOf(old), namesOf(now)];
  return [
    ...goneSentences(differences, before),
    ...newSentences(differences, after),
    ...changeSentences(differences, before, after),
    ...moveSentences(differences, after),
    ...tapsGone(differences, before, after),
    ...renameSentences(differences, before, after),
  ].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
}

const order: readonly Sentence['kind'][] = [
  'removed',
  'added',
  'changed',
  'moved',
  'renamed',
  'said',
];

function goneSentences({ removed }: Differences, before: Names): Sentence[] {
  const gone = new Set(removed.map(({ thing }) => thing.id));
  return removed.flatMap((each): Sentence[] => {
    const { id, owner } = each.thing;
    if (owner !== undefined && gone.has(owner)) return [];
    const inner = removed.filter(({ thing }) => thing.owner === id);
    const text = removedWords(each, inner, before);
    const parts = [id, ...inner.map(({ thing }) => thing.id)];
    return [{ kind: 'removed', text, brief: '', before: parts, after: [] }];
  });
}

function newSentences({ added }: Differences, after: Names): Sentence[] {
  const fresh = new Set(added.map(({ thing }) => thing.id));
  return added.flatMap((each): Sentence[] => {
    const { id, owner } = each.thing;
    if (owner !== undefined && fresh.has(owner)) return [];
    const inner = added.filter(({ thing }) => thing.owner === id);
    const text = addedWords(each, inner, after);
    const parts = [id, ...inner.map(({ thing }) => thing.id)];
    return [{ kind: 'added', text, brief: '', before: [], after: parts }];
  });
}

/** Where taps that are gone were joined, and where new ones go; that they are is told as a change. */
function tapsGone(
  { tapsRemoved, tapsAdded }: Differences,
  before: Names,
  after: Names,
): Sentence[] {
  // Of a winding the whole is marked; of a supply the tap, where it still has it.
  const about = (thing: string, end: string): string[] => {
    const kind = after.kindOf(thing);
    if (kind !== 'battery' && kind !== 'eliminator') return [thing];
    return after.ownerOf(end) ? [end] : [];
  };
  const told = (thing: string, end: string, text: string): Sentence => ({
    kind: 'moved',
    text,
    brief: '',
    before: [],
    after: about(thing, end),
  });
  return [
    ...tapsRemoved.flatMap(({ thing, end, from }) =>
      from === undefined
        ? []
        : told(
            thing,
            '',
            `${atBeginning(before.end(end))}, now gone, was joined to ${before.terminal(from)}.`,
          ),
    ),
    ...tapsAdded.flatMap(({ thing, end, to }) =>
      to === undefined
        ? []
        : told(
            thing,
            end,
            `${atBeginning(after.end(end))}, which is new, goes to ${after.terminal(to)}.`,
          ),
    ),
  ];
}

function renameSentences(
  { renamed, tapsRenamed, changed }: Differences,
  before: Names,
  after: Names,
): Sentence[] {
  const parents = new Map(renamed.map((each) => [each.before, each.after]));
  // A winding follows its coil; a lead has no name of its own.
  const told = renamed.filter((each) => {
    if (each.kind === 'lead') return false;
    const coil = each.before.slice(0, each.before.lastIndexOf('.'));
    return each.kind !== 'winding' || !follows(each, coil, parents.get(coil) ?? coil);
  });
  const groups = new Map<string, Renamed[]>();
  for (const each of told) groups.set(each.kind, [...(groups.get(each.kind) ?? []), each]);
  return [
    ...[...groups.values()].map((all) => groupRenamed(all, before, after)),
    ...tapsRenamed
      .filter(({ after: tap }) => !isToldAsChange(tap, changed))
      .map(
        (each): Sentence => ({
          kind: 'renamed',
          text: `${atBeginning(before.end(each.before))} is called ${after.terminal(each.after)} now.`,
          brief: '',
          before: [],
          after: [],
        }),
      ),
  ];
}

/** Whether what became of a tap's volts or turns is told, with what it was called. */
function isToldAsChange(tap: string, changed: Differences['changed']): boolean {
  return changed.some(
    ({ slot, before, after }) =>
      slot === 'taps' &&
      before.some((phrase) => isOf(phrase, tap)) &&
      after.some((phrase) => isOf(phrase, tap)),
  );
}

function isOf([word]: Phrase, tap: string): boolean {
  return word !== undefined && typeof word !== 'string' && 'name' in word && word.name === tap;
}

function follows({ before, after }: Renamed, coil: string, coilNow: string): boolean {
  return after === coilNow + before.slice(coil.length);
}

function groupRenamed(all: readonly Renamed[], before: Names, after: Names): Sentence {
  const sorted = [...all].sort((a, b) => inNaturalOrder(a.before, b.before));
  const pair = (each: Renamed) =>
    `${before.thing(each.before)} is called ${after.thing(each.after)}`;
  const noun = nounOf(sorted[0] ?? { kind: 'bus' });
  const isPart = sorted.every(({ after: name }) => after.thing(name) === name);
  const text =
    sorted.length <= FEW
      ? `${capitalNoun(noun, sorted.length, isPart)}${listed(sorted.map(pair))} now; what it is and where it stands has not changed by that.`
      : `Names only: ${listed(sorted.map(pair))} now.`;
  return {
    kind: 'renamed',
    text:
      sorted.length === 1 || sorted.length > FEW
        ? text
        : text
            .replace('it is', 'they are')
            .replace('it stands', 'they stand')
            .replace('has not', 'have not'),
    brief: '',
    before: [],
    after: isPart ? sorted.map((each) => each.after) : [],
  };
}

function capitalNoun(noun: string, count: number, isPart: boolean): string {
  return isPart && count > 0 ? '' : `The ${noun} `;
}
