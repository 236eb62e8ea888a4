import { listed } from './words.ts';

/**
 * Phrases that differ in one name alone told once for all of them: `10 mmfd of wiring at L1.finish`
 * and the same of L2 become `10 mmfd of wiring at L1.finish and L2.finish`. In order of the first.
 *
 * @param isName whether a word is the name of a part or terminal
 */
export function gathered(phrases: readonly string[], isName: (word: string) => boolean): string[] {
  const groups = new Map<string, { readonly words: readonly string[]; readonly names: string[] }>();
  for (const phrase of phrases) {
    const words = phrase.split(' ');
    const places = words.flatMap((word, index) => (isName(bare(word)) ? [index] : []));
    const [place, ...more] = places;
    const isOne = place !== undefined && more.length === 0;
    const key = isOne
      ? words.map((word, at) => (at === place ? `\u0000${signOf(word)}` : word)).join(' ')
      : phrase;
    const known = groups.get(key);
    if (known && isOne) known.names.push(bare(words[place] ?? ''));
    else groups.set(key, { words, names: isOne ? [bare(words[place] ?? '')] : [] });
  }
  return [...groups].map(([key, { words, names }]) =>
    names.length < 2
      ? words.join(' ')
      : key.replace('\u0000 is ', '\u0000 are ').replace('\u0000', listed([...new Set(names)])),
  );
}

/** A word without the sign that ends its clause. */
function bare(word: string): string {
  return word.slice(0, word.length - signOf(word).length);
}

/** The sign that ends a word's clause, where there is one. */
function signOf(word: string): string {
  return /[,;:]$/.exec(word)?.[0] ?? '';
}
