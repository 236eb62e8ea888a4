import { describe, expect, it } from 'vitest';
import type { TourLevel } from '../../src/tour/tour.ts';
import { textOf, tourIn } from './sets.ts';

/** Read word by word as a restorer would; a change is to be read so again. */
const read: readonly (readonly [string, TourLevel])[] = [
  ['five-tube-trf', 'restorer'],
  ['crystal', 'newcomer'],
  ['one-tube-regenerative', 'newcomer'],
  ['reflex', 'restorer'],
  ['superheterodyne', 'restorer'],
];

describe('the words of a tour', () => {
  it.each(read)('%s, for a %s', async (example, level) => {
    const { steps } = tourIn(textOf(example), { level });
    const words = steps.map(({ id, heading, sentences, overlay }) =>
      [`# ${heading}`, `(${id}, ${overlay.id})`, ...sentences].join('\n'),
    );
    await expect(`${words.join('\n\n')}\n`).toMatchFileSnapshot(`golden/${example}-${level}.txt`);
  });
});
