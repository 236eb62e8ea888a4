import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Tube types without data; found while the text is read. */
export const unknownTubeType: Check = {
  id: 'unknown-tube-type',
  group: 'Reading the text',
  severity: 'hint',
  summary: 'A tube type that neither the library nor the file describes.',
  why: 'Without its data only the wiring of this tube can be judged: no volts, no bias, no gain.',
  silent: [
    'A tube without any type says nothing, as in a bare wiring list.',
    'The number of a known type in small letters or without its hyphen is that type.',
    'A type that the file describes in a tube type block is known.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['tube V1 01-A', 'tube V1 UX-201-B']),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'unknown-tube-type'),
};
