import { type Contradiction, contradictionsOf } from '@setwright/bench';
import type { Finding, Fix, Place } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { benchExample } from '../examples/bench-example.ts';
import { finding } from '../words/finding.ts';

/** Readings of one bench that cannot all be true, whatever is the matter with the set. */
export const readingsContradict: Check = {
  id: 'readings-contradict',
  group: 'The bench',
  severity: 'warning',
  summary: 'Readings of one bench that cannot all be true, whatever is the matter with the set.',
  why: 'A slip of the pencil sends an hour of searching the wrong way.',
  silent: [
    'Readings that differ by no more than the meter’s accuracy at both of them.',
    'The leads of a battery where not every one that carries current was read.',
    'Readings of different benches: the set may have been in another state.',
    'A pointer instrument on two ranges: it draws another current on each.',
    'A set with an eliminator, whose volts without load nobody knows.',
  ],
  source: 'common practice: what flows out comes home, and volts along a way add up',
  needsWholeText: true,
  fails: benchExample(
    'meter 1000 ohms per volt 2 %',
    'reading V2.plate 87 V on 100 V',
    'reading V2.plate 77 V on 100 V',
  ),
  passes: benchExample('meter 1000 ohms per volt 2 %', 'reading V2.plate 87 V on 100 V'),
  find({ circuit }) {
    return circuit.benches.flatMap((bench) =>
      contradictionsOf(circuit, bench).flatMap((each) => findingFor(each) ?? []),
    );
  },
};

function findingFor({ words, cure, places, parts, isTwice }: Contradiction): Finding | undefined {
  const [first, ...others] = places;
  if (!first) return undefined;
  return finding({
    check: 'readings-contradict',
    severity: 'warning',
    message: words,
    why: 'No fault of the set makes all of them true: one is a slip, or the set was in another state.',
    cure,
    place: first,
    related: others.map((place) => ({ place, message: 'this reading takes part' })),
    parts,
    // Of two readings of one point either may be the slip; of a sum nobody can tell.
    fixes: isTwice ? [first, ...others].map((place, at) => strikeOut(place, at === 0)) : [],
  });
}

function strikeOut(place: Place, isLast: boolean): Fix {
  return {
    title: isLast ? 'Strike out this reading' : 'Strike out the earlier reading',
    edits: [{ place, text: '' }],
  };
}
