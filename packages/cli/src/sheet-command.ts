import { basename, extname } from 'node:path';
import { checkCircuit, quickChecks } from '@setwright/checks';
import type { Circuit, Finding } from '@setwright/circuit';
import { benchesNamed } from './bench.ts';
import type { Draughtsman } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, theReceiver } from './one-file.ts';
import { type PageWanted, pageFormat, writePage } from './page-files.ts';
import type { SheetMaking } from './sheet-making.ts';
import type { Streams } from './streams.ts';
import { version } from './version.ts';

export interface SheetCommandOptions extends PageWanted {
  readonly symbols: SheetMaking['symbols'];
  readonly units: SheetMaking['units'];
  /** Which set of the file: its number from 1, or its title. */
  readonly receiver: string | undefined;
  /** Title of the bench of the text whose meter and readings count; its first where not given. */
  readonly bench: string | undefined;
  /** A date to print, as the user writes it. */
  readonly date: string | undefined;
}

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
  const format = pageFormat('sheet', options, read.file, streams);
  if (!format) return exitCodes.trouble;
  const from = read.file === undefined ? '' : `, from ${basename(read.file)}`;
  const made = await draughtsman().sheetMade(circuit, {
    format,
    symbols,
    units,
    date,
    bench: chosen.bench,
    madeBy: `Made by setwright ${version}${from}`,
    stem: stemOf(output),
    ...findingsFor(circuit),
  });
  return writePage('sheet', output, made, streams);
}

const known = new Set(quickChecks.map(({ id }) => id));

/** What `check` tells of a set, and what it would tell had a `meant` not spoken. */
export function findingsFor(circuit: Circuit): Pick<SheetMaking, 'findings' | 'waived'> {
  const { findings, waived } = checkCircuit(circuit);
  // Nearly everything that is remarked while reading is told by a check of that name.
  const remarks = circuit.remarks.filter(({ check }: Finding) => !known.has(check));
  return { findings: [...findings, ...remarks], waived };
}

/** What the names of pictures begin with: letters that a link takes as they are. */
function stemOf(output: string | undefined): string {
  const plain = basename(output ?? 'sheet', extname(output ?? '')).replace(/[^\w.-]+/g, '-');
  return plain.replace(/^[-.]+/, '') || 'sheet';
}
