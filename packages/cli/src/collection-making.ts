import type { Circuit } from '@setwright/circuit';
import { overlayOf } from '@setwright/diagram';
import { type CollectionRow, collectionRow } from '@setwright/report';
import { type SheetMaking, sheetMade } from './sheet-making.ts';

/** A set of a collection as it is written: its page, and its line in the index. */
export interface SetMade {
  readonly row: CollectionRow;
  readonly text: string;
}

/** Makes the page of a set and its line in the index. */
export async function setMade(
  circuit: Circuit,
  making: Omit<SheetMaking, 'format'>,
): Promise<SetMade> {
  const { text } = await sheetMade(circuit, { ...making, format: 'html' });
  return { row: collectionRow(circuit, { overlayOf }, making.findings), text };
}
