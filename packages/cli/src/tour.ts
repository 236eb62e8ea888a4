import type { Draughtsman } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, theReceiver } from './one-file.ts';
import { type PageWanted, pageFormat, writePage } from './page-files.ts';
import type { Streams } from './streams.ts';
import type { TourMaking } from './tour-making.ts';

export interface TourCommandOptions extends PageWanted, Omit<TourMaking, 'format'> {
  /** Which set of the file: its number from 1, or its title. */
  readonly receiver: string | undefined;
}

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
  const format = pageFormat('tour', options, read.file, streams);
  if (!format) return exitCodes.trouble;
  const made = await draughtsman().tourMade(circuit, { ...options, format });
  return writePage('tour', options.output, made, streams);
}
