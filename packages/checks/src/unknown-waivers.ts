import type { Circuit, Finding } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import { finding } from './words/finding.ts';

/** `meant` lines that name a check which does not exist: they would silence nothing. */
export function unknownWaivers(circuit: Circuit, ids: readonly string[]): Finding[] {
  const known = new Set(ids);
  return circuit.waivers
    .filter(({ check }) => !known.has(check))
    .map(({ check, place, parts }) => {
      const likely = nearest(check, ids, 2);
      const start = place.start + 'meant'.length + 1;
      const name = { ...place, start, end: start + check.length };
      return finding({
        check: 'unknown-word',
        severity: 'error',
        message: `There is no check called "${check}".`,
        why: 'What is meant by this line is not known, so it silences nothing.',
        cure: likely.length
          ? `Did you mean ${likely.join(' or ')}?`
          : 'Copy the name from the finding that is meant.',
        place,
        parts: [...parts],
        fixes: likely.map((id) => ({
          title: `Change to ${id}`,
          edits: [{ place: name, text: id }],
        })),
      });
    });
}
