import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Files that a set uses and that cannot be had as they stand; found while the text is read. */
export const usedFile: Check = {
  id: 'used-file',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A file that is used cannot be read, or is not right itself.',
  why: 'The tube types and patterns that it holds are not known, so what goes by them is left out.',
  silent: [
    'A name that may stand in a file that cannot be read is not called unknown as well.',
    'What is wrong in a used file is told there in full, and at the line that uses it in a word.',
    'A file that two used files use is read once, and is no circle.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: `use "parts/not-there.receiver"\n\n${readingExample()}`,
  passes: readingExample(),
  find: (study) => remarksOf(study, 'used-file'),
};
