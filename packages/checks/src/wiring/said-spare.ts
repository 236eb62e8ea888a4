import type { Circuit, Part } from '@setwright/circuit';

const spare =
  /\b(alternatives?|alternate|optional|spare|instead|either|unused|not used|short|long)\b/i;

/** Whether a part's title, or a note that names the part, says that it may stay unused. */
export function isSaidSpare({ notes }: Circuit, part: Part): boolean {
  if (spare.test(part.title ?? '')) return true;
  return notes.some(
    ({ text }) =>
      spare.test(text) &&
      text.split(/[\s,;:()]+/).some((word) => word.replace(/[.'’]s?$/, '') === part.name),
  );
}
