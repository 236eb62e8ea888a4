import { createHash } from 'node:crypto';
import type { Circuit } from '@setwright/circuit';
import {
  drawCircuit,
  figuresOf,
  layoutEngine,
  layoutMemory,
  overlayOf,
  type Scene,
  sceneToSvg,
  setAtWork,
  viewsOf,
} from '@setwright/diagram';
import {
  largestOnSheet,
  type SheetOptions,
  type SheetPageOptions,
  sheetMarkdown,
  sheetOf,
  sheetPage,
} from '@setwright/report';

/** How a service sheet is to be made, and what it is given besides the set. */
export interface SheetMaking extends SheetOptions, SheetPageOptions {
  readonly format: 'html' | 'markdown';
  readonly symbols: 'modern' | 'period';
  readonly units: 'period' | 'si';
  /** What the names of the pictures beside a text in Markdown begin with. */
  readonly stem?: string | undefined;
}

/** A service sheet as it is written: one text, and the pictures that belong beside it. */
export interface SheetMade {
  readonly text: string;
  /** By file name. */
  readonly pictures: ReadonlyMap<string, string>;
}

/** Rows that a schematic may be broken into. */
const ways = [1, 2, 3, 4, 5] as const;

/** Makes the service sheet of a set, its schematic as large as the paper takes it. */
export async function sheetMade(circuit: Circuit, making: SheetMaking): Promise<SheetMade> {
  const { format, symbols, units, back, stem } = making;
  const sheet = sheetOf(circuit, { overlayOf, setAtWork, viewsOf }, making);
  const engine = layoutEngine();
  const memory = layoutMemory();
  const scenes: Scene[] = [];
  for (const rows of ways) scenes.push(await drawCircuit(circuit, engine, { rows, memory }));
  const scene = largestOnSheet(scenes);
  const drawing =
    scene &&
    sceneToSvg(scene, {
      symbols,
      use: format === 'html' ? 'screen' : 'file',
      figures: figuresOf(circuit, { units }),
    });
  if (format === 'markdown') return sheetMarkdown(sheet, drawing, stem);
  const digest = (text: string): string => createHash('sha256').update(text).digest('base64');
  return { text: sheetPage(sheet, drawing, digest, { back }), pictures: new Map() };
}
