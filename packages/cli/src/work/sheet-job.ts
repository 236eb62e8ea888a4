import { basename } from 'node:path';
import { readReceivers } from '@setwright/language';
import type { SetMade } from '../collection-making.ts';
import type { Draughtsman } from '../draw.ts';
import { findingsFor } from '../sheet-command.ts';
import { version } from '../version.ts';
import type { UsedOnce } from './used-once.ts';

/** A file of which the pages of all sets are to be made. */
export interface SheetJob {
  readonly kind: 'sheets';
  /** As it is called from the working folder: files that it uses are seen from there. */
  readonly path: string;
  /** As the index of the collection calls it. */
  readonly shown: string;
  readonly text: string;
  readonly symbols: 'modern' | 'period';
  readonly units: 'period' | 'si';
}

/** The pages of a file, and the files that they rest on besides it. */
export interface SheetsMade {
  readonly pages: readonly SetMade[];
  readonly uses: readonly { readonly file: string; readonly stamp: string }[];
}

/** Makes the pages of all sets of a file, in its order. */
export async function sheetsMade(
  { path, shown, text, symbols, units }: SheetJob,
  used: UsedOnce,
  draughtsman: Draughtsman,
): Promise<SheetsMade> {
  const { circuits, usedFiles } = readReceivers(text, path, used.reading);
  const { setMade } = draughtsman();
  const pages: SetMade[] = [];
  for (const circuit of circuits)
    pages.push(
      await setMade(circuit, {
        symbols,
        units,
        bench: circuit.benches[0],
        back: { href: '../index.html', words: 'All sets' },
        madeBy: `Made by setwright ${version}, from ${basename(shown)}`,
        ...findingsFor(circuit),
      }),
    );
  return { pages, uses: usedFiles.map(({ file }) => ({ file, stamp: used.stampOf(file) })) };
}
