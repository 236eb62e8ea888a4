import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Lines that use a file for nothing; found while the text is read. */
export const unusedUse: Check = {
  id: 'unused-use',
  group: 'Reading the text',
  severity: 'hint',
  summary: 'A file is used of which nothing is wanted, or twice.',
  why: 'Who reads the set looks for what comes from that file, and finds nothing.',
  silent: [
    'A file without receivers hands on what it uses to those that use it.',
    'Of a file that cannot be read, nobody knows what is wanted.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: `use "parts/not-there.receiver"\nuse "parts/not-there.receiver"\n\n${readingExample()}`,
  passes: readingExample(),
  find: (study) => remarksOf(study, 'unused-use'),
};
