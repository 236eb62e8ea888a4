import type { Place } from '@setwright/circuit';
import { libraryFile, tubeLibraryText } from '@setwright/language';
import type { FileExamined } from './examine.ts';
import { linesOf, type Position, positionAt, type TextLines } from './text-lines.ts';

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** The range of a place in a file, or in the tube library where it speaks of that. */
export function rangeOf(file: FileExamined, place: Place): Range {
  const lines = place.file === libraryFile ? libraryLines() : file.lines;
  return { start: positionAt(lines, place.start), end: positionAt(lines, place.end) };
}

let library: TextLines | undefined;

function libraryLines(): TextLines {
  library ??= linesOf(tubeLibraryText);
  return library;
}
