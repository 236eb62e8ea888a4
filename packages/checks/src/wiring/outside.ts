import type { Circuit, PartKindName } from '@setwright/circuit';
import { partsAt } from '../tubes/tubes.ts';
import type { Bridge } from './regions.ts';

/** What is hooked to posts of a kind when the set is used. */
const hookedTo: Readonly<Record<string, readonly PartKindName[]>> = {
  loop: ['loop', 'winding', 'variometer'],
  phones: ['phones', 'horn', 'speaker'],
  speaker: ['phones', 'horn', 'speaker'],
};

/**
 * The posts that wait for phones, a loudspeaker or a loop that the text does not draw, joined in
 * pairs: whatever is hooked to them in use passes direct current. Posts with such a part between
 * them are left alone.
 */
export function outsideBridges(circuit: Circuit): readonly Bridge[] {
  const bridges: Bridge[] = [];
  for (const [word, kinds] of Object.entries(hookedTo)) {
    const posts = new Set(
      circuit.parts.flatMap((part) =>
        part.kind === 'post' && part.words.has(word) ? (part.ends[0]?.junction ?? []) : [],
      ),
    );
    const isServed = (junction: number): boolean =>
      partsAt(circuit, junction).some(
        (part) =>
          kinds.includes(part.kind) &&
          part.ends.some((end) => end.junction !== junction && posts.has(end.junction)),
      );
    const waiting = [...posts].filter((junction) => !isServed(junction));
    for (const [index, junction] of waiting.entries()) {
      const before = waiting[index - 1];
      if (before !== undefined) bridges.push([before, junction]);
    }
  }
  return bridges;
}
