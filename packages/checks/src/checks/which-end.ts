import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Bare names that leave open which end is meant; found while the text is read. */
export const whichEnd: Check = {
  id: 'which-end',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A name alone stands where one end of a part is meant, and which end cannot be told.',
  why: 'A part wired by the wrong end is wired wrong, so no end is guessed.',
  silent: [
    'The bare name of a part with two ends means its free end where the other is spoken for.',
    'A post, bus, tap, shield and the arm of a selector or potentiometer are one point, and their names are enough.',
    'The filament of a tube, named alone, is its negative end.',
    'A coil or transformer with one winding goes by the name of the whole.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1 2 meg from V1.grid to A+', 'leak R1 2 meg from V1.grid to C1']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'which-end'),
};
