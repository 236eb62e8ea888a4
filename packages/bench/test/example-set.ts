import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';

/** The set of a text, which must be sound as a text. */
export function setOf(text: string): Circuit {
  const { circuits } = readReceivers(text, 'test.receiver');
  const [circuit] = circuits;
  if (!circuit) throw new Error('there is no set in this text');
  const [remark] = circuit.remarks;
  if (remark) throw new Error(remark.message);
  return circuit;
}

/** The text of one of the examples, and its set. */
export function exampleText(name: string): string {
  const file = join(import.meta.dirname, '../../../examples', `${name}.receiver`);
  return readFileSync(file, 'utf8');
}

export function exampleSet(name: string): Circuit {
  return setOf(exampleText(name));
}
