import type { Circuit, Finding, Join } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { finding, nameOf } from '../words/finding.ts';

/** The same two terminals joined by two lines of the text. */
export const joinedTwice: Check = {
  id: 'joined-twice',
  group: 'Wiring',
  severity: 'hint',
  summary: 'Two lines say the same join.',
  why: 'It is no fault, but when one of the lines is changed the other still holds, and the wire stays.',
  silent: [
    'The same words in two stages restate a bus for the reader.',
    'A join that follows from two others is not said twice.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: readingExample(['condenser C1', 'wire L1.grid.finish to C1.stator\n  condenser C1']),
  passes: readingExample(),
  find({ circuit }) {
    const stageAt = stagesByPlace(circuit);
    const linksAt = new Map<number, number>();
    for (const { place } of circuit.joins)
      linksAt.set(place.start, (linksAt.get(place.start) ?? 0) + 1);
    const first = new Map<string, Join>();
    return circuit.joins.flatMap((join) => {
      if (join.from === join.to) return [];
      const pair = [join.from, join.to].sort().join('\n');
      const earlier = first.get(pair);
      if (!earlier) first.set(pair, join);
      if (!earlier || earlier.place.start === join.place.start) return [];
      if (earlier.said === join.said && stageAt(earlier) !== stageAt(join)) return [];
      return [twice(circuit, earlier, join, linksAt)];
    });
  },
};

/** The stage whose heading stands last before a join's line: that of the line, or the one before. */
function stagesByPlace(circuit: Circuit): (join: Join) => string | undefined {
  const heads = [...circuit.stages].sort((a, b) => a.place.start - b.place.start);
  return ({ place }) => {
    let low = 0;
    let high = heads.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((heads[middle]?.place.start ?? 0) <= place.start) low = middle + 1;
      else high = middle;
    }
    return heads[low - 1]?.name;
  };
}

function twice(
  circuit: Circuit,
  earlier: Join,
  join: Join,
  linksAt: ReadonlyMap<number, number>,
): Finding {
  const [from, to] = [join.from, join.to].map((terminal) => nameOf(circuit, terminal));
  const parts = [join.from, join.to].flatMap((id) => circuit.partOfEnd.get(id)?.name ?? []);
  // Only a wire that says nothing else can be taken out whole.
  const wire = [join, earlier].find(
    ({ said, place }) => said === 'wire' && linksAt.get(place.start) === 1,
  );
  return finding({
    check: 'joined-twice',
    severity: 'hint',
    message: `${from} and ${to} are joined here and on another line.`,
    why: 'If one of the lines is changed later, the other still joins them.',
    cure: 'Keep the line that says it best.',
    place: join.place,
    related: [{ place: earlier.place, message: 'This joins them as well.' }],
    parts: [...new Set(parts)],
    fixes: wire ? [{ title: 'Take the wire out', edits: [{ place: wire.place, text: '' }] }] : [],
  });
}
