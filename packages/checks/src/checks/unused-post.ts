import type { Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { joinedEnds } from '../wiring/joined-ends.ts';
import { isSaidSpare } from '../wiring/said-spare.ts';
import { finding } from '../words/finding.ts';

/** A post or bus that nothing is joined to. */
export const unusedPost: Check = {
  id: 'unused-post',
  group: 'Wiring',
  severity: 'hint',
  summary: 'A post or bus that no part is joined to.',
  why: 'What is hooked to it outside the set reaches nothing inside; perhaps its wire was forgotten.',
  silent: [
    'Battery taps need not all be used, nor studs of a selector, nor taps of a coil.',
    'A post that its own words, its title or a note call alternative or spare.',
    'The posts of a loop, and an aerial post beside another aerial or a loop that is in use.',
    'A post strapped to a tap or to another post that is in use.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: readingExample(['post GND ground', 'post GND ground\n  post GND2 ground']),
  passes: readingExample(),
  find({ circuit }) {
    const { isUsed } = joinedEnds(circuit);
    const inUse = (part: Part) => part.ends.some((end) => isUsed(end.junction));
    const pickedUp = circuit.parts.some(
      (part) => part.kind === 'loop' || (part.kind === 'post' && isPickUp(part) && inUse(part)),
    );
    return circuit.parts.flatMap((part) => {
      if ((part.kind !== 'post' && part.kind !== 'bus') || inUse(part)) return [];
      if (part.words.has('loop') || (part.words.has('aerial') && pickedUp)) return [];
      if (part.words.has('alternative') || isSaidSpare(circuit, part)) return [];
      return [unused(part)];
    });
  },
};

const isPickUp = (post: Part) => post.words.has('aerial') || post.words.has('loop');

function unused(post: Part): Finding {
  return finding({
    check: 'unused-post',
    severity: 'hint',
    message: `Nothing is joined to the ${post.kind} ${post.name}.`,
    why:
      post.kind === 'bus'
        ? 'A bus is a name for a junction, and this one has none.'
        : 'What is hooked to it outside the set reaches nothing inside.',
    cure:
      post.kind === 'bus'
        ? 'Join the parts that belong on it, or take it out.'
        : `Join what belongs there, or say that it is not needed: post ${post.name} alternative.`,
    place: post.place,
    parts: [post.name],
    fixes:
      post.kind === 'bus'
        ? [{ title: `Take ${post.name} out`, edits: [{ place: post.place, text: '' }] }]
        : [
            {
              title: `Say that ${post.name} is an alternative`,
              edits: [{ place: { ...post.place, start: post.place.end }, text: ' alternative' }],
            },
          ],
  });
}
