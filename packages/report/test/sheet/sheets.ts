import { checkCircuit } from '@setwright/checks';
import type { Circuit } from '@setwright/circuit';
import * as views from '@setwright/diagram';
import type { Sheet, SheetCell, SheetSection } from '../../src/sheet/sheet.ts';
import type { SheetOptions } from '../../src/sheet/sheet-grounds.ts';
import { sheetOf } from '../../src/sheet/sheet-of.ts';
import { setOf, textOf } from '../tour/sets.ts';

/** The sheet of a set, with what the checks find in it. */
export function sheetFor(circuit: Circuit, options: Partial<SheetOptions> = {}): Sheet {
  const { findings, waived } = checkCircuit(circuit);
  return sheetOf(circuit, views, { findings, waived, ...options });
}

export const sheetIn = (text: string, options: Partial<SheetOptions> = {}): Sheet =>
  sheetFor(setOf(text), options);

const made = new Map<string, Sheet>();

/** The sheet of an example, made once for all tests of a file: what they read does not change it. */
export function exampleSheet(example: string): Sheet {
  const known = made.get(example) ?? sheetIn(textOf(example));
  made.set(example, known);
  return known;
}

export const section = (sheet: Sheet, id: string): SheetSection | undefined =>
  sheet.sections.find((each) => each.id === id);

/** Every cell of a section's tables, row by row. */
export function rowsOf(of: SheetSection | undefined): readonly (readonly SheetCell[])[] {
  return (of?.blocks ?? []).flatMap((block) => (block.kind === 'table' ? block.table.rows : []));
}

/** Everything that a section says, for those who look for a word in it. */
export function wordsOf(of: SheetSection | undefined): string {
  return (of?.blocks ?? [])
    .map((block) => {
      switch (block.kind) {
        case 'words':
          return block.words;
        case 'list':
          return block.items.join('\n');
        case 'table':
          return block.table.rows.map((row) => row.map(({ text }) => text).join(' | ')).join('\n');
        default:
          return '';
      }
    })
    .join('\n');
}
