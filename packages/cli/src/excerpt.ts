import type { Place } from '@setwright/circuit';
import { displayWidth, visible } from '@setwright/report';
import { endOfLine, positionAt, type TextLines } from './text-lines.ts';

/** A source line as printed, and a line of marks that stands under the words it is about. */
export interface Excerpt {
  /** Number of the line, counted from 1. */
  readonly line: number;
  readonly source: string;
  readonly mark: string;
}

/** Columns that a tab fills up to a multiple of. */
const TAB = 4;
/** Characters shown before and after the beginning of the marked words on a long line. */
const BEFORE = 60;
const AFTER = 100;

/** The line that a place begins on, with `^` under its words as far as they stand on that line. */
export function excerptOf(lines: TextLines, place: Place): Excerpt {
  const { line } = positionAt(lines, place.start);
  const lineStart = lines.starts[line] ?? 0;
  const lineEnd = endOfLine(lines, line);
  const start = Math.min(place.start, lineEnd);
  const end = Math.max(start, Math.min(place.end, lineEnd));
  const from = Math.max(lineStart, start - BEFORE);
  const to = Math.min(lineEnd, start + AFTER);
  const marked = Math.min(end, to);
  let source = from > lineStart ? '…' : '';
  let column = source.length;
  let markFrom = column;
  let markTo = column;
  for (let offset = from; offset < to; ) {
    const code = lines.text.codePointAt(offset) ?? 0;
    const character = String.fromCodePoint(code);
    const shown = character === '\t' ? ' '.repeat(TAB - (column % TAB)) : visible(character);
    if (offset < start) markFrom = column + displayWidth(shown);
    column += displayWidth(shown);
    if (offset < marked) markTo = column;
    source += shown;
    offset += character.length;
  }
  if (to < lineEnd) source += '…';
  return {
    line: line + 1,
    source,
    mark: ' '.repeat(markFrom) + '^'.repeat(Math.max(1, markTo - markFrom)),
  };
}
