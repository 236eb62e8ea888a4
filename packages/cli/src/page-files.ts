import { mkdirSync } from 'node:fs';
import { dirname, extname, join, resolve } from 'node:path';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

/** The forms in which something is told of a set for reading: a page, or Markdown with pictures. */
export const pageFormats = ['html', 'markdown'] as const;
export type PageFormat = (typeof pageFormats)[number];

/** What the output of each form may end in. */
const endings: Readonly<Record<PageFormat, readonly string[]>> = {
  html: ['.html', '.htm'],
  markdown: ['.md', '.markdown'],
};

/** Where a page is to go; the form goes by the ending where none is asked for. */
export interface PageWanted {
  readonly output: string | undefined;
  readonly format: PageFormat | undefined;
}

/**
 * The form of what is to be made; undefined when it cannot be put where the call says, which is
 * then said.
 *
 * @param what it is, in a word @param input the file that was read, which is never written over
 */
export function pageFormat(
  what: string,
  { output, format: wanted }: PageWanted,
  input: string | undefined,
  streams: Streams,
): PageFormat | undefined {
  const ending = extname(output ?? '').toLowerCase();
  const format = wanted ?? (endings.markdown.includes(ending) ? 'markdown' : 'html');
  if (output !== undefined)
    return mayBeDrawnTo(output, input, streams, endings[format], what) ? format : undefined;
  if (format === 'html') return format;
  sayWrong(
    streams,
    `A ${what} in Markdown has pictures beside it, which need a place.`,
    `Say where, as in: -o ${what}/${what}.md`,
  );
  return undefined;
}

/** Writes what was made, to standard output where no place is named. */
export function writePage(
  what: string,
  output: string | undefined,
  made: { readonly text: string; readonly pictures: ReadonlyMap<string, string> },
  streams: Streams,
): ExitCode {
  if (output === undefined) {
    streams.out.write(made.text);
    return exitCodes.clean;
  }
  const folder = dirname(output);
  if (!hasFolder(folder, what, streams)) return exitCodes.trouble;
  // The text last: where it stands, its pictures do too.
  const files = [
    ...[...made.pictures].map(([name, svg]) => [join(folder, name), svg] as const),
    [output, made.text] as const,
  ];
  return files.every(([name, contents]) => writeDrawing(name, contents, streams))
    ? exitCodes.clean
    : exitCodes.trouble;
}

/** Makes the folder of the output where there is none; false when that cannot be, which is then said. */
function hasFolder(folder: string, what: string, streams: Streams): boolean {
  try {
    mkdirSync(resolve(streams.cwd, folder), { recursive: true });
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    sayWrong(streams, `${folder} cannot be made (${code}).`, `Name another place for the ${what}.`);
    return false;
  }
}
