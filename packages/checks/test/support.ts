import type { Circuit, Finding } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import type { Check } from '../src/check.ts';
import { studyOf } from '../src/study.ts';

/** The circuit of the first receiver in a text. */
export function circuitOf(text: string): Circuit {
  const circuit = readReceivers(text, 'test.receiver').circuits[0];
  if (!circuit) throw new Error('the text of this test holds no receiver');
  return circuit;
}

/** What one check finds in a text, on its own: no precedence, no waivers. */
export function findingsOf(check: Check, text: string): readonly Finding[] {
  return check.find(studyOf(circuitOf(text)));
}

/** `check severity @ the text it points at`, for short expectations. */
export function told(text: string, findings: readonly Finding[]): string[] {
  return findings.map(
    ({ check, severity, place }) =>
      `${check} ${severity} @ ${text.slice(place.start, place.end).split('\n')[0]}`,
  );
}
