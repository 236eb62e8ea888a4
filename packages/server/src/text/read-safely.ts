import type { Finding } from '@setwright/circuit';
import { type ReadFile, type Reading, readReceivers } from '@setwright/language';

/**
 * The sets of a text. Reading is not to throw on any text; where it does all the same, the editor
 * is told so at the head of the text, and goes on.
 */
export function readSafely(text: string, uri: string, reading: Reading): ReadFile {
  try {
    return readReceivers(text, uri, reading);
  } catch (error) {
    const slip: Finding = {
      check: 'unreadable-line',
      severity: 'error',
      message: `The tool itself fell over this text: ${error instanceof Error ? error.message : String(error)}.`,
      why: 'That is a fault of the tool. Nothing is told of the set until the text can be read.',
      cure: 'Take back the last change, and tell those who make the tool what it was.',
      place: { file: uri, start: 0, end: Math.max(0, text.indexOf('\n')) },
      related: [],
      parts: [],
      fixes: [],
    };
    const nothing = readReceivers('', uri);
    return { ...nothing, remarks: [...nothing.remarks, slip] };
  }
}
