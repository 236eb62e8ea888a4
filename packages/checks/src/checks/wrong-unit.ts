import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Units of the wrong kind; found while the text is read. */
export const wrongUnit: Check = {
  id: 'wrong-unit',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A quantity has a unit of another kind, or one that is no unit, or is said twice.',
  why: 'What the part is worth is not known until it is put right.',
  silent: [
    'Units are read in any case and in the spellings of the time: MFD, M.F., MHY, megs, Kc.',
    'A wave may be given in kilocycles or in meters.',
    'A capacity may be given in centimeters.',
    'A gauge may be B&S or SWG.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1 2 meg', 'leak R1 2 mfd']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'wrong-unit'),
};
