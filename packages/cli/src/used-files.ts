import { lstatSync, realpathSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Reading, type UsedText, usedMemory } from '@setwright/language';
import { readSource } from './read-source.ts';
import { shownPath, troubleWith } from './sources.ts';

/** What sets have in common takes some kilobytes; what is longer than this is something else. */
const MOST_BYTES = 2_000_000;

/**
 * Gives sets the files that they use, as they lie on the disk when asked for, and reads each to
 * the end only once while it stays the same.
 *
 * @param cwd the folder that the paths of the sets are seen from
 */
export function usedFilesFor(cwd: string): Required<Reading> {
  return { used: (path) => usedFile(path, cwd), memory: usedMemory() };
}

function usedFile(path: string, cwd: string): UsedText | undefined {
  const file = resolve(cwd, path);
  try {
    const real = realpathSync(file);
    // A name that ends rightly must not lead to what is none of a set's business.
    if (!real.endsWith('.receiver'))
      return {
        cause: 'it leads to a file whose name does not end in .receiver',
        cure: 'Put a file of your own in its place.',
      };
    const found = statSync(real);
    if (found.isDirectory()) return { cause: 'it is a folder', cure: 'Name a file in it.' };
    if (!found.isFile())
      return { cause: 'it is a device or a pipe, and no file', cure: 'Name a file.' };
    if (found.size > MOST_BYTES)
      return {
        cause: 'it is larger than 2 MB, which no file of patterns is',
        cure: 'Put what is wanted into a file of its own.',
      };
    const read = readSource({ path, file: real });
    if ('cause' in read) return { cause: read.cause, cure: read.cure };
    return { text: read.text, same: shownPath(real, cwd) };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    const isMissing = code === 'ENOENT' || code === 'ENOTDIR';
    if (isMissing && !lstatSync(file, { throwIfNoEntry: false })) return undefined;
    if (isMissing)
      return { cause: 'it is a link that leads to nothing', cure: 'Put the file back there.' };
    const { cause, cure } = troubleWith(path, error);
    return { cause, cure };
  }
}
