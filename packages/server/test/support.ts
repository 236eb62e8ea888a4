import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkCircuit } from '@setwright/checks';
import type { Finding } from '@setwright/circuit';
import type { Position, Range, TextEdit } from 'vscode-languageserver-protocol';
import { edited } from '../src/text/edits.ts';
import { type Snapshot, snapshotOf } from '../src/text/snapshot.ts';

export const uri = 'file:///set.receiver';

/** A text as a document. */
export function read(text: string): Snapshot {
  return snapshotOf(uri, 1, text);
}

/** A text with one place marked `<|>`. */
export interface Marked {
  readonly snapshot: Snapshot;
  readonly offset: number;
  readonly position: Position;
}

/** Takes the mark `<|>` out of a text and tells where it stood. */
export function marked(text: string): Marked {
  const offset = text.indexOf('<|>');
  if (offset < 0) throw new Error('the text has no mark <|>');
  const snapshot = read(text.replace('<|>', ''));
  return { snapshot, offset, position: snapshot.position(offset) };
}

/** What stands at a range of a text. */
export function wordsAt(snapshot: Snapshot, { start, end }: Range): string {
  return snapshot.text.slice(snapshot.offset(start), snapshot.offset(end));
}

/** Where some words stand in a text for the first time. */
export function rangeOf(snapshot: Snapshot, words: string): Range {
  const start = snapshot.text.indexOf(words);
  if (start < 0) throw new Error(`the text has no ${words}`);
  return snapshot.range({ start, end: start + words.length });
}

/** A text after the edits of an answer. */
export function after(snapshot: Snapshot, edits: readonly TextEdit[]): string {
  return edited(
    snapshot.text,
    edits.map(({ range, newText }) => ({
      start: snapshot.offset(range.start),
      end: snapshot.offset(range.end),
      text: newText,
    })),
  );
}

/** What all quick checks find in a text. */
export function findingsIn({ file }: Snapshot): readonly Finding[] {
  return [...file.circuits.flatMap((circuit) => checkCircuit(circuit).findings), ...file.remarks];
}

const examples = join(import.meta.dirname, '../../../examples');

/** A text of the examples by its name. */
export function exampleText(name: string): string {
  return readFileSync(join(examples, `${name}.receiver`), 'utf8');
}

/** Names of all examples, of the sound or of the faulty ones. */
export function exampleNames(folder: 'sound' | 'faulty'): readonly string[] {
  const path = folder === 'sound' ? examples : join(examples, 'faulty');
  return readdirSync(path)
    .filter((file) => file.endsWith('.receiver'))
    .map((file) => `${folder === 'sound' ? '' : 'faulty/'}${file.replace('.receiver', '')}`);
}

/** A small whole set, with lines put in where they belong. */
export function setWith(lines: { readonly set?: string; readonly stage?: string } = {}): string {
  return `receiver "Lantern Cove Punt" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
    capacity 100 Ah
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  ${lines.set ?? ''}
  detector stage DET "detector" {
    coil L1 "tuner" {
      form 3 in
      winding aerial 10 turns of 24 DCC from GND to ANT
      winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 "grid condenser" .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    ${lines.stage ?? ''}
    phones PH1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
  dial D1 0 to 100 drives C1
}
`;
}
