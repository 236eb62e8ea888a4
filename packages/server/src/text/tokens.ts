import type { Place } from '@setwright/circuit';
import type { Item } from '@setwright/language';

/** The words of a text, by place. */
export interface Tokens {
  /** Those that stand wholly within a place, in order. */
  readonly within: (place: Pick<Place, 'start' | 'end'>) => readonly Item[];
}

/** Words and signs without the comments. */
export function tokensOf(items: readonly Item[]): Tokens {
  const words = items.filter(({ kind }) => kind === 'token');
  return {
    within({ start, end }) {
      let index = firstFrom(words, start);
      const found: Item[] = [];
      for (let word = words[index]; word && word.end <= end; word = words[++index])
        found.push(word);
      return found;
    },
  };
}

/** Index of the first item that begins at an offset or after it. */
export function firstFrom(items: readonly Item[], offset: number): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((items[middle]?.start ?? 0) < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The item that an offset stands in or at the end of; the one that begins there comes first. */
export function itemAt(items: readonly Item[], offset: number): Item | undefined {
  const next = items[firstFrom(items, offset)];
  if (next?.start === offset) return next;
  const before = items[firstFrom(items, offset) - 1];
  return before && offset <= before.end ? before : undefined;
}
