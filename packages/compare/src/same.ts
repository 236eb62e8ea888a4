import { junctionsOf } from './junctions.ts';
import { phrasesKey } from './plain/phrase.ts';
import type { PlainSet } from './plain/plain-set.ts';
import { inOrder } from './plain/plain-set-of.ts';
import { standing } from './plain/standing.ts';

/** Whether two sets are the same but for places, order and how values are written. */
export function equalSets(one: PlainSet, other: PlainSet): boolean {
  return keyOf(one) === keyOf(other);
}

/** A text that two sets share if and only if they are equal: one line a fact, sorted. */
function keyOf(set: PlainSet): string {
  const { things, junctions } = inOrder(set);
  const jointOf = jointsOf(set);
  const lines = things.flatMap(({ id, kind, owner, ends, facts }) => [
    JSON.stringify([id, kind, owner ?? '', [...ends].sort()]),
    ...Object.entries(facts)
      .filter(([, phrases]) => phrases.length > 0)
      .map(([slot, phrases]) => JSON.stringify([id, slot, phrasesKey(phrases, jointOf)]))
      .sort(),
  ]);
  return [...lines, ...junctions.map((terminals) => JSON.stringify(terminals))].join('\n');
}

/** The terminal that stands for the junction of each. */
export function jointsOf(set: PlainSet): (terminal: string) => string {
  const { members, of } = junctionsOf(set);
  const { best } = standing(set.things);
  const named = members.map((terminals) => best(terminals));
  return (terminal) => named[of.get(terminal) ?? -1] ?? terminal;
}
