/** Longer words are not somebody's slip of the pen. */
const LONGEST_WORD = 64;
/** More wrong letters than this is another word, however long it is. */
const MOST_WRONG = 6;
/** Candidates looked at; the rest of a longer list is left alone, to bound the time. */
const MOST_CANDIDATES = 20_000;

interface Match {
  readonly name: string;
  /** Letters wrong, capitals and small letters being alike. */
  readonly wrong: number;
  /** Letters wrong, capitals and small letters being different: the tie-break. */
  readonly wrongWithCase: number;
}

/**
 * The candidates nearest to a misspelled word, best first. A wrong, missing, extra or swapped pair
 * of letters counts one; about a third of the letters may be wrong. Capitals and small letters are
 * alike, except to settle a tie; then the order of characters settles it, so the answer does not
 * depend on the order of the candidates.
 *
 * Time is bounded: words over 64 characters have no neighbors, at most 20,000 candidates are
 * looked at, at most 6 letters may be wrong.
 *
 * @param word as typed.
 * @param candidates known names; duplicates count once.
 * @param limit most names to return, 3 by default.
 */
export function nearest(word: string, candidates: Iterable<string>, limit = 3): string[] {
  if (!(limit >= 1) || word === '' || word.length > LONGEST_WORD) return [];
  const allowed = Math.min(MOST_WRONG, Math.round(word.length / 3));
  const folded = word.toLowerCase();
  const matches = new Map<string, Match>();
  let seen = 0;
  for (const name of candidates) {
    seen += 1;
    if (seen > MOST_CANDIDATES) break;
    if (matches.has(name) || Math.abs(name.length - word.length) > allowed) continue;
    const wrong = wrongLetters(folded, name.toLowerCase(), allowed);
    if (wrong > allowed) continue;
    matches.set(name, { name, wrong, wrongWithCase: wrongLetters(word, name, word.length) });
  }
  return [...matches.values()]
    .sort(
      (a, b) =>
        a.wrong - b.wrong || a.wrongWithCase - b.wrongWithCase || (a.name < b.name ? -1 : 1),
    )
    .slice(0, limit)
    .map((match) => match.name);
}

/**
 * Edit distance with swaps of neighboring letters (optimal string alignment), worked only in the
 * band of `most` letters beside the diagonal.
 *
 * @returns the distance, or `most + 1` when it is greater.
 */
function wrongLetters(a: string, b: string, most: number): number {
  const tooMany = most + 1;
  if (Math.abs(a.length - b.length) > most) return tooMany;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const current = new Array<number>(b.length + 1).fill(tooMany);
    if (i <= most) current[0] = i;
    let best = current[0] ?? tooMany;
    for (let j = Math.max(1, i - most); j <= Math.min(b.length, i + most); j += 1) {
      const same = a[i - 1] === b[j - 1];
      let wrong = Math.min(
        (last[j - 1] ?? tooMany) + (same ? 0 : 1),
        (last[j] ?? tooMany) + 1,
        (current[j - 1] ?? tooMany) + 1,
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        wrong = Math.min(wrong, (beforeLast[j - 2] ?? tooMany) + 1);
      }
      current[j] = Math.min(wrong, tooMany);
      best = Math.min(best, wrong);
    }
    if (best > most) return tooMany;
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? tooMany;
}
