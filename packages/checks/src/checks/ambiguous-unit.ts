import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** A lone M before ohms; found while the text is read. */
export const ambiguousUnit: Check = {
  id: 'ambiguous-unit',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A resistance has a lone M, which meant a thousand to some and a million to others.',
  why: 'Read the wrong way the part is a thousand times out, so neither way is guessed.',
  silent: [
    'The M of MF, MFD, MMF, MA, MV, MH and MEG is plain.',
    'Where a wave or a length is wanted, a small m is a meter.',
    'k, kilohms, meg and megohms are plain.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1 2 meg', 'leak R1 2 M']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'ambiguous-unit'),
};
