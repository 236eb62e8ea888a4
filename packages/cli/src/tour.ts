import { mkdirSync } from 'node:fs';
import { dirname, extname, join, resolve } from 'node:path';
import type { Draughtsman } from './draw.ts';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, theReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import type { TourMaking } from './tour-making.ts';
import { sayWrong } from './troubles.ts';

export const tourFormats = ['html', 'markdown'] as const;

export interface TourCommandOptions extends Omit<TourMaking, 'format'> {
  readonly output: string | undefined;
  /** Undefined: by the ending of the output. */
  readonly format: TourMaking['format'] | undefined;
  /** Which set of the file: its number from 1, or its title. */
  readonly receiver: string | undefined;
}

/** What the output of each form may end in. */
const endings = { html: ['.html', '.htm'], markdown: ['.md', '.markdown'] } as const;

/** `setwright tour`: the guided tour of a set, as a page or as Markdown with pictures. */
export async function tour(
  file: string,
  options: TourCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman,
): Promise<ExitCode> {
  const read = readOneFile(file, 'something may be missing in the tour', streams);
  const circuit = read && theReceiver(read, options.receiver, streams);
  if (!read || !circuit) return exitCodes.trouble;
  const { output } = options;
  const format = options.format ?? formatOf(output);
  if (output === undefined && format === 'markdown') {
    sayWrong(
      streams,
      'A tour in Markdown has pictures beside it, which need a place.',
      'Say where, as in: -o tour/tour.md',
    );
    return exitCodes.trouble;
  }
  if (output !== undefined && !mayBeDrawnTo(output, read.file, streams, endings[format], 'tour'))
    return exitCodes.trouble;
  const { text, pictures } = await draughtsman().tourMade(circuit, { ...options, format });
  if (output === undefined) {
    streams.out.write(text);
    return exitCodes.clean;
  }
  const folder = dirname(output);
  if (!hasFolder(folder, streams)) return exitCodes.trouble;
  const files = [
    [output, text] as const,
    ...[...pictures].map(([name, svg]) => [join(folder, name), svg] as const),
  ];
  return files.every(([name, contents]) => writeDrawing(name, contents, streams))
    ? exitCodes.clean
    : exitCodes.trouble;
}

function formatOf(output: string | undefined): TourMaking['format'] {
  const ending = extname(output ?? '').toLowerCase();
  return (endings.markdown as readonly string[]).includes(ending) ? 'markdown' : 'html';
}

/** Makes the folder of the output where there is none; false when that cannot be, which is then said. */
function hasFolder(folder: string, streams: Streams): boolean {
  try {
    mkdirSync(resolve(streams.cwd, folder), { recursive: true });
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    sayWrong(streams, `${folder} cannot be made (${code}).`, 'Name another place for the tour.');
    return false;
  }
}
