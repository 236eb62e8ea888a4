import { extname, resolve } from 'node:path';
import { listed } from '@setwright/report';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';
import { isSameFile, writeWhole } from './write-whole.ts';

/**
 * Writes what was made where the call says, whole or not at all; false when that cannot be, which
 * is then said.
 */
export function writeDrawing(
  file: string,
  contents: string | Uint8Array,
  streams: Streams,
): boolean {
  try {
    writeWhole(resolve(streams.cwd, file), contents);
    return true;
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    sayWrong(streams, `${file} cannot be written: ${cause}.`, 'Name another place for it.');
    return false;
  }
}

/**
 * Whether a drawing may be written under a name; when not, that is said.
 *
 * @param input the file that was read, which is never written over
 * @param endings what such a name may end in @param what it is, in a word
 */
export function mayBeDrawnTo(
  file: string,
  input: string | undefined,
  streams: Streams,
  endings: readonly string[] = ['.svg'],
  what = 'drawing',
): boolean {
  if (!endings.includes(extname(file).toLowerCase())) {
    sayWrong(
      streams,
      `${file === '' ? 'Nothing' : file} is no name for a ${what}.`,
      `Let it end in ${listed(endings, 'or')}, as in: -o set${endings[0] ?? ''}`,
    );
    return false;
  }
  if (input !== undefined && isSameFile(resolve(streams.cwd, file), input)) {
    sayWrong(streams, `${file} is the set itself.`, `Name another place for the ${what}.`);
    return false;
  }
  return true;
}
