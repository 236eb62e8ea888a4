import { mkdirSync } from 'node:fs';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { checkCircuit, quickChecks } from '@setwright/checks';
import type { Circuit, Finding } from '@setwright/circuit';
import { benchesNamed } from './bench.ts';
import type { Draughtsman } from './draw.ts';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, theReceiver } from './one-file.ts';
import type { SheetMaking } from './sheet-making.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';
import { version } from './version.ts';

export const sheetFormats = ['html', 'markdown'] as const;

export interface SheetCommandOptions {
  readonly output: string | undefined;
  /** Undefined: by the ending of the output. */
  readonly format: (typeof sheetFormats)[number] | undefined;
  readonly symbols: SheetMaking['symbols'];
  readonly units: SheetMaking['units'];
  /** Which set of the file: its number from 1, or its title. */
  readonly receiver: string | undefined;
  /** Title of the bench of the text whose meter and readings count; its first where not given. */
  readonly bench: string | undefined;
  /** A date to print, as the user writes it. */
  readonly date: string | undefined;
}

/** What the output of each form may end in. */
const endings = { html: ['.html', '.htm'], markdown: ['.md', '.markdown'] } as const;

/** `setwright report`: the service sheet of a set, as a page or as Markdown with pictures. */
export async function report(
  file: string,
  options: SheetCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman,
): Promise<ExitCode> {
  const read = readOneFile(file, 'something may be missing on the sheet', streams);
  const circuit = read && theReceiver(read, options.receiver, streams);
  if (!read || !circuit) return exitCodes.trouble;
  const [chosen] = benchesNamed([circuit], options.bench, streams) ?? [];
  if (!chosen) return exitCodes.trouble;
  const { output, symbols, units, date } = options;
  const format = options.format ?? formatOf(output);
  if (output === undefined && format === 'markdown') {
    sayWrong(
      streams,
      'A sheet in Markdown has pictures beside it, which need a place.',
      'Say where, as in: -o sheet/sheet.md',
    );
    return exitCodes.trouble;
  }
  if (output !== undefined && !mayBeDrawnTo(output, read.file, streams, endings[format], 'sheet'))
    return exitCodes.trouble;
  const from = read.file === undefined ? '' : `, from ${basename(read.file)}`;
  const { text, pictures } = await draughtsman().sheetMade(circuit, {
    format,
    symbols,
    units,
    date,
    bench: chosen.bench,
    madeBy: `Made by setwright ${version}${from}`,
    stem: stemOf(output),
    ...findingsFor(circuit),
  });
  if (output === undefined) {
    streams.out.write(text);
    return exitCodes.clean;
  }
  const folder = dirname(output);
  if (!hasFolder(folder, streams)) return exitCodes.trouble;
  // The text last: where it stands, its pictures do too.
  const files = [
    ...[...pictures].map(([name, svg]) => [join(folder, name), svg] as const),
    [output, text] as const,
  ];
  return files.every(([name, contents]) => writeDrawing(name, contents, streams))
    ? exitCodes.clean
    : exitCodes.trouble;
}

const known = new Set(quickChecks.map(({ id }) => id));

/** What `check` tells of a set, and what it would tell had a `meant` not spoken. */
export function findingsFor(circuit: Circuit): Pick<SheetMaking, 'findings' | 'waived'> {
  const { findings, waived } = checkCircuit(circuit);
  // Nearly everything that is remarked while reading is told by a check of that name.
  const remarks = circuit.remarks.filter(({ check }: Finding) => !known.has(check));
  return { findings: [...findings, ...remarks], waived };
}

function formatOf(output: string | undefined): (typeof sheetFormats)[number] {
  const ending = extname(output ?? '').toLowerCase();
  return (endings.markdown as readonly string[]).includes(ending) ? 'markdown' : 'html';
}

/** What the names of pictures begin with: letters that a link takes as they are. */
function stemOf(output: string | undefined): string {
  const plain = basename(output ?? 'sheet', extname(output ?? '')).replace(/[^\w.-]+/g, '-');
  return plain.replace(/^[-.]+/, '') || 'sheet';
}

/** Makes the folder of the output where there is none; false when that cannot be, which is then said. */
function hasFolder(folder: string, streams: Streams): boolean {
  try {
    mkdirSync(resolve(streams.cwd, folder), { recursive: true });
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    sayWrong(streams, `${folder} cannot be made (${code}).`, 'Name another place for the sheet.');
    return false;
  }
}
