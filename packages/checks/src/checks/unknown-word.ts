import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Words without a meaning where they stand; found while the text is read. */
export const unknownWord: Check = {
  id: 'unknown-word',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A word, detail or line that has no meaning where it stands.',
  why: 'It may be a garbled join or value, and what is not understood is never passed over in silence.',
  silent: [
    'Titles and notes may say anything.',
    'Words that lead one kind of statement may be names in another.',
    'Comments say nothing to the tool.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1 2 meg from', 'leak R1 2 meg frm']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'unknown-word'),
};
