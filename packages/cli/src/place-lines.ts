import type { Place } from '@setwright/circuit';
import { libraryFile, tubeLibraryText } from '@setwright/language';
import type { FileExamined } from './examine.ts';
import { linesOf, type Position, positionAt, type TextLines } from './text-lines.ts';

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** The range of a place in a file, in one that it uses, or in the tube library. */
export function rangeOf(file: FileExamined, place: Place): Range {
  const lines = linesAt(file, place);
  return { start: positionAt(lines, place.start), end: positionAt(lines, place.end) };
}

function linesAt({ path, lines, usedFiles }: FileExamined, { file }: Place): TextLines {
  if (file === path) return lines;
  if (file === libraryFile) return libraryLines();
  const used = usedFiles.find((each) => each.file === file)?.text;
  return used === undefined ? lines : linesOf(used);
}

let library: TextLines | undefined;

function libraryLines(): TextLines {
  library ??= linesOf(tubeLibraryText);
  return library;
}
