import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { remarksOf } from '../remarks-of.ts';

const ownType = `
tube type 01-A "as measured on the museum's tester" {
  filament 5 V .25 A
  amplification 8
  point plate 90 V grid -4.5 V current 2.2 mA resistance 11500 ohms
  detector plate 45 V return A+ leak 2 meg to 9 meg
}
`.trimStart();

/** Types of the library that the file describes itself; found while the text is read. */
export const ownTubeType: Check = {
  id: 'own-tube-type',
  group: 'Reading the text',
  severity: 'hint',
  summary: 'A tube type of the library is described anew in the file.',
  why: 'The numbers and checks of this file go by the description in the file, which is right only if it is meant.',
  silent: ['A type that the library does not have needs no note.'],
  source: 'common practice',
  needsWholeText: false,
  fails: `${readingExample()}\n${ownType}`,
  passes: `${readingExample(['tube V1 01-A', 'tube V1 01-X'])}\n${ownType.replace('01-A', '01-X')}`,
  find: (study) => remarksOf(study, 'own-tube-type'),
};
