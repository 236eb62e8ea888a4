/** Where the lines of a text begin, to find places by line and column. */
export interface TextLines {
  readonly text: string;
  /** Offset of the first character of each line. */
  readonly starts: readonly number[];
}

/** A place by line and UTF-16 code units into it, both counted from 0, as editors count them. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** The lines of a text; they end with LF, CRLF or CR. */
export function linesOf(text: string): TextLines {
  const starts = [0];
  for (const end of text.matchAll(/\r\n?|\n/g)) starts.push(end.index + end[0].length);
  return { text, starts };
}

/** The line and column of an offset; an offset outside the text is taken to its nearest end. */
export function positionAt({ text, starts }: TextLines, offset: number): Position {
  const at = Math.max(0, Math.min(offset, text.length));
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  return { line: low, character: at - (starts[low] ?? 0) };
}

/** The offset at which a line ends, without its line end. */
export function endOfLine({ text, starts }: TextLines, line: number): number {
  let end = starts[line + 1] ?? text.length;
  const start = starts[line] ?? 0;
  while (end > start && (text[end - 1] === '\n' || text[end - 1] === '\r')) end -= 1;
  return end;
}
