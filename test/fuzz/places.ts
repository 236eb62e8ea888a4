/** A place of a text as editors count: lines and UTF-16 units from 0. */
export interface Place {
  readonly line: number;
  readonly character: number;
}

export interface Span {
  readonly start: Place;
  readonly end: Place;
}

interface Offsets {
  readonly start: number;
  readonly end: number;
}

/** Places of a text, its lines parted as the Language Server Protocol parts them. */
export function placesIn(text: string) {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length);
  const lengthOf = (line: number): number =>
    text.slice(starts[line], starts[line + 1]).replace(/[\r\n]+$/, '').length;
  const placeOf = (offset: number): Place => {
    const line = starts.findLastIndex((start) => start <= offset);
    return { line, character: Math.min(offset - (starts[line] ?? 0), lengthOf(line)) };
  };
  const offsetOf = ({ line, character }: Place): number =>
    (starts[line] ?? text.length) + character;
  return {
    placeOf,
    spanOf: ({ start, end }: Offsets): Span => ({ start: placeOf(start), end: placeOf(end) }),
    offsetsOf: ({ start, end }: Span): Offsets => ({ start: offsetOf(start), end: offsetOf(end) }),
    /** Why a span is none; undefined where nothing is wrong with it. */
    troubleIn({ start, end }: Span, isOurs: boolean): string | undefined {
      for (const { line, character } of [start, end]) {
        if (!Number.isInteger(line) || !Number.isInteger(character) || line < 0 || character < 0)
          return 'no place';
        // The line after the last is the end of the text.
        if (!isOurs || (line === starts.length && character === 0)) continue;
        if (line >= starts.length || character > lengthOf(line)) return 'outside the text';
      }
      const isBackward =
        end.line < start.line || (end.line === start.line && end.character < start.character);
      return isBackward ? 'ends before it starts' : undefined;
    },
  };
}
