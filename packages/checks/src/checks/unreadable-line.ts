import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Lines that cannot be read; found while the text is read. */
export const unreadableLine: Check = {
  id: 'unreadable-line',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A line, or the end of one, that cannot be read.',
  why: 'What it says of the set is not known; checks that look for something missing wait until it can be read.',
  silent: [
    'A garbled line disturbs no other line: whatever else the file says is judged as before.',
    'Comments may say anything.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1', 'laek R1']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'unreadable-line'),
};
