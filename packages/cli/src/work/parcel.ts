import type { Resting } from '../cache/entries.ts';
import type { FileExamined } from '../examine.ts';
import { linesOf } from '../text-lines.ts';
import type { UsedOnce } from './used-once.ts';

/**
 * What was found out of a file, as it goes from process to process and into the cache: plain data,
 * without the texts, which whoever asked for it has.
 */
export interface Parcel extends Resting, Pick<FileExamined, 'findings' | 'sets'> {}

export function parcelOf({ findings, sets, usedFiles }: FileExamined, used: UsedOnce): Parcel {
  const uses = usedFiles.map(({ file }) => ({ file, stamp: used.stampOf(file) }));
  return { findings, sets, uses };
}

/** A file as it was examined, from its text and what was found out of it. */
export function unpacked(
  path: string,
  text: string,
  { findings, sets, uses }: Parcel,
  used: UsedOnce,
): FileExamined {
  const usedFiles = uses.map(({ file }) => ({ file, text: used.textOf(file) }));
  return { path, lines: linesOf(text), findings, sets, usedFiles };
}
