import { readdirSync, readFileSync } from 'node:fs';
import type { Circuit } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';

/** The set that a few lines of the language describe; they must be understood in full. */
export function setFrom(...lines: readonly string[]): Circuit {
  const text = `receiver "Lantern Cove Bench" {\n${lines.join('\n')}\n}\n`;
  const [circuit] = readReceivers(text, 'bench.receiver').circuits;
  if (!circuit) throw new Error('no set in the text');
  const errors = circuit.remarks.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('\n'));
  return circuit;
}

const folder = new URL('../../../examples/', import.meta.url);

/** The example sets by their file's name. */
export const exampleSets: ReadonlyMap<string, Circuit> = new Map(
  readdirSync(folder)
    .filter((file) => file.endsWith('.receiver'))
    .flatMap((file) => {
      const { circuits } = readReceivers(readFileSync(new URL(file, folder), 'utf8'), file);
      return circuits.map((circuit) => [file.replace('.receiver', ''), circuit] as const);
    }),
);
