import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Numbers without the unit that they need; found while the text is read. */
export const missingUnit: Check = {
  id: 'missing-unit',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A number that needs a unit has none.',
  why: 'Without its unit a number can be a thousand or a million times out.',
  silent: [
    'Ratios, turns, plates, taps, dial numbers, years and the stud of a selector are pure numbers.',
    'In a range such as `14 to 365 mmfd` the second unit serves for both.',
    'A tap whose volts stand in its name needs no others.',
    'What is copied with `like` is told of where it is first said.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['leak R1 2 meg', 'leak R1 2']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'missing-unit'),
};
