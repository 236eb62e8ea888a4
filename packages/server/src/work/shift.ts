import type { Finding, Fix, Place } from '@setwright/circuit';

/** One change of a text: what stood between two offsets gave way to other words. */
export interface TextChange {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * Where a place of the old text stands in the new one; undefined where its own lines were changed.
 * What is put in just before a place moves it, what is put in just behind it does not.
 */
function shifted(
  place: Place,
  change: TextChange,
  before: string,
  after: string,
): Place | undefined {
  const delta = change.text.length - (change.end - change.start);
  const isBehind = change.start >= place.end && !(place.start === place.end && delta > 0);
  const isAhead = change.end <= place.start;
  if (!isBehind && !isAhead) return undefined;
  const moved = isAhead ? { ...place, start: place.start + delta, end: place.end + delta } : place;
  return linesOf(before, place) === linesOf(after, moved) ? moved : undefined;
}

/** The whole of the lines that a place stands on. */
function linesOf(text: string, { start, end }: Place): string {
  const from = text.lastIndexOf('\n', start - 1) + 1;
  const to = text.indexOf('\n', end);
  return text.slice(from, to < 0 ? text.length : to).replace(/\r$/, '');
}

/**
 * Findings as they stand after a change of the text. Those on a line that was itself changed are
 * dropped, and so are fixes and related places that no longer fit.
 *
 * @param file the text that changed; places in other files stay
 */
export function shiftedFindings(
  findings: readonly Finding[],
  change: TextChange,
  before: string,
  after: string,
  file: string,
): readonly Finding[] {
  const move = (place: Place): Place | undefined =>
    place.file === file ? shifted(place, change, before, after) : place;
  const moveFix = (fix: Fix): readonly Fix[] => {
    const edits = fix.edits.flatMap(({ place, text }) => {
      const moved = move(place);
      return moved ? [{ place: moved, text }] : [];
    });
    return edits.length === fix.edits.length ? [{ ...fix, edits }] : [];
  };
  return findings.flatMap((finding) => {
    const place = move(finding.place);
    if (!place) return [];
    const related = finding.related.flatMap((each) => {
      const moved = move(each.place);
      return moved ? [{ ...each, place: moved }] : [];
    });
    return [{ ...finding, place, related, fixes: finding.fixes.flatMap(moveFix) }];
  });
}

/**
 * The least change that leads from one text to another: some clients send the whole text anew for
 * every letter.
 *
 * @param same so many characters at the beginning are known to be the same
 */
export function leastChange(before: string, after: string, same: number): TextChange {
  const most = Math.min(before.length, after.length);
  let start = Math.min(same, most);
  while (start < most && before[start] === after[start]) start++;
  let tail = 0;
  while (tail < most - start && before[before.length - 1 - tail] === after[after.length - 1 - tail])
    tail++;
  return {
    start,
    end: before.length - tail,
    text: after.slice(start, after.length - tail),
  };
}
