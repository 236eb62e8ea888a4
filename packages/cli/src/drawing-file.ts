import { writeFileSync } from 'node:fs';
import { extname, resolve } from 'node:path';
import { listed } from '@setwright/report';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

/** Writes what was drawn where the call says; false when that cannot be, which is then said. */
export function writeDrawing(
  file: string,
  contents: string | Uint8Array,
  streams: Streams,
): boolean {
  try {
    writeFileSync(resolve(streams.cwd, file), contents);
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    sayWrong(streams, `${file} cannot be written (${code}).`, 'Name another place for it.');
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
      `${file} is no name for a ${what}.`,
      `Let it end in ${listed(endings, 'or')}, as in: -o set${endings[0] ?? ''}`,
    );
    return false;
  }
  if (input !== undefined && resolve(streams.cwd, file) === input) {
    sayWrong(streams, `${file} is the set itself.`, `Name another place for the ${what}.`);
    return false;
  }
  return true;
}
