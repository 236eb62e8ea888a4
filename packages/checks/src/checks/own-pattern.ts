import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

const pattern = 'condenser BYPASS "as the other sets of the year have it" .5 mfd\n';

const plain = 'condenser C3 .001 mfd from V1.plate to GND';

const own = [
  'condenser BYPASS .001 mfd from V1.plate to GND',
  'condenser C4 like BYPASS from B+45 to GND',
].join('\n    ');

const made = [plain, 'condenser C4 like BYPASS from B+45 to GND'].join('\n    ');

/** Parts like one of the set where a pattern has the same name; found while the text is read. */
export const ownPattern: Check = {
  id: 'own-pattern',
  group: 'Reading the text',
  severity: 'hint',
  summary: 'A part is made like one of its set, though a pattern has that name as well.',
  why: 'A name of the set itself comes before that of a pattern, which is right only if it is meant.',
  silent: [
    'A part like the pattern of its own name, as coil L1 like L1, can only mean the pattern.',
    'Two things of one name that nothing is made like confuse nobody.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: `${pattern}\n${readingExample([plain, own])}`,
  passes: `${pattern}\n${readingExample([plain, made])}`,
  find: (study) => remarksOf(study, 'own-pattern'),
};
