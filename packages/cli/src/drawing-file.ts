import { writeFileSync } from 'node:fs';
import { extname, resolve } from 'node:path';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

/** Writes what was drawn where the call says; false when that cannot be, which is then said. */
export function writeDrawing(file: string, text: string, streams: Streams): boolean {
  try {
    writeFileSync(resolve(streams.cwd, file), text);
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    sayWrong(streams, `${file} cannot be written (${code}).`, 'Name another place for it.');
    return false;
  }
}

/**
 * Whether a chart may be written under a name; when not, that is said.
 *
 * @param input the file that was read, which is never written over
 */
export function mayBeDrawnTo(file: string, input: string | undefined, streams: Streams): boolean {
  if (extname(file).toLowerCase() !== '.svg') {
    sayWrong(streams, `${file} is no name for a chart.`, 'Name it with .svg, as in: -o chart.svg');
    return false;
  }
  if (input !== undefined && resolve(streams.cwd, file) === input) {
    sayWrong(streams, `${file} is the set itself.`, 'Name another place for the chart.');
    return false;
  }
  return true;
}
