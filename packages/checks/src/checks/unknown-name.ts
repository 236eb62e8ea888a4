import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

/** Names that stand for nothing in the set; found while the text is read. */
export const unknownName: Check = {
  id: 'unknown-name',
  group: 'Reading the text',
  severity: 'error',
  summary: 'A line names a part or terminal that the set does not have.',
  why: 'What should be joined there is joined to nothing, and whatever is judged of the circuit would be judged of another one.',
  silent: [
    'A name may be used above the line that declares it.',
    'Receivers of one file may use the same names; each speaks of its own parts.',
    'A post that has the name of a tap is that tap.',
    'Letters stamped on an audio transformer, and F-, F+, G and P of a socket, are names of their ends.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample([
    'phones PH1 2000 ohms from V1.plate to B+45',
    'phones PH1 2000 ohms from V1.plate to B+54',
  ]),
  passes: readingExample(),
  find: (study) => remarksOf(study, 'unknown-name'),
};
