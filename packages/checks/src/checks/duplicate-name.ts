import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Names given twice; found while the text is read. */
export const duplicateName: Check = {
  id: 'duplicate-name',
  group: 'Reading the text',
  severity: 'error',
  summary: 'Two parts, taps, stages or tube types have the same name.',
  why: 'What is said of one would be taken for the other, so only the first is counted.',
  silent: [
    'Receivers of one file may use the same names.',
    'In a set of two boxes each stage may have a battery of its own with the same taps; a tap then means that of its own stage.',
    'A post or bus that is said twice, as it is marked on the panel and again on the base, is one.',
    'A post that has the name of a tap is that tap.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['condenser C3', 'condenser C2']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'duplicate-name'),
};
