import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { amperesFullOn } from '../filaments/full-on.ts';
import { revalued } from '../fixes/edits.ts';
import { allowedCurrent, amperesAtWork, REST_ERROR } from '../sizes/allowed-current.ts';
import { guessesOf } from '../sizes/guesses.ts';
import { aboutAmperes } from '../words/about.ts';
import { finding } from '../words/finding.ts';

const kinds: ReadonlySet<string> = new Set(['resistor', 'leak', 'potentiometer']);

/** A resistor that has to give off more heat than it is rated for. */
export const resistorOverDissipation: Check = {
  id: 'resistor-over-dissipation',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A resistor that has to give off more heat than it is rated for.',
  why: 'It runs hot, drifts and at last burns out, and may take what lies beside it along.',
  silent: [
    'A resistor with no rating, as nearly all are: leaks above all.',
    'Controls stand as set; what only the worst travel of a rheostat does is information.',
    'Up to a tenth over the rating is information: the reckoning is no better.',
    'Of a potentiometer or a tapped resistor the wire that carries most is judged, not the whole.',
    'A current that hangs on another resistance that is not stated.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: withBleeder('1/2 W'),
  passes: withBleeder('5 W'),
  find(study) {
    const rated = study.circuit.parts.filter(
      (part) => kinds.has(part.kind) && allowedCurrent(part) !== undefined,
    );
    if (rated.length === 0) return [];
    const isRated = new Set(rated);
    const working = amperesAtWork(study.operating.parts);
    const worst = new Map<string, number>();
    for (const group of study.filamentGroups)
      for (const [name, amperes] of amperesFullOn(group, (part) => isRated.has(part)))
        worst.set(name, amperes);
    const isGuess = guessesOf(study);
    return rated.flatMap((part): Finding[] => {
      const allowed = allowedCurrent(part) ?? 0;
      const now = working.get(part.name);
      const most = worst.get(part.name) ?? 0;
      if (now === undefined) return [];
      const isOver = now > allowed;
      const isOverAtWorst = most > allowed * (1 + REST_ERROR);
      if (!isOver && !isOverAtWorst) return [];
      if (part.ends.some(({ junction }) => isGuess(junction))) return [];
      return [told(part, allowed, isOver ? now : most, isOver)];
    });
  },
};

function told(part: Part, allowed: number, amperes: number, isNow: boolean): Finding {
  const isCertain = isNow && amperes > allowed * Math.sqrt(1 + REST_ERROR);
  const ohms = part.values.resistance?.value ?? 0;
  const rated = part.values.ratedPower?.value ?? allowed * allowed * ohms;
  const watts = (amperes / allowed) ** 2 * rated;
  const power = (value: number): string => formatQuantity(value, 'power', 'period', 2);
  const share = part.kind === 'potentiometer' || part.taps.length > 0;
  const verb = isCertain ? 'carries' : isNow ? 'may carry' : 'would carry';
  const when = isNow ? '' : ' with the rheostats full on';
  const more = share
    ? `its wire is rated for ${aboutAmperes(allowed)}`
    : `that is ${power(watts)} of heat, and it is rated for ${formatQuantity(rated, 'power')}`;
  return finding({
    check: 'resistor-over-dissipation',
    severity: isCertain ? 'warning' : 'information',
    message: `${part.name} ${verb} ${aboutAmperes(amperes)}${when}: ${more}.`,
    why: 'It runs hot, drifts, and at last burns out.',
    cure: isNow
      ? `Use a resistor of ${power(2 * watts)} or more for ${part.name}.`
      : `Keep the rheostats from the end of their travel, or use a resistor of ${power(2 * watts)} or more for ${part.name}.`,
    place: part.place,
    parts: [part.name],
    // Two figures might round down to less.
    fixes: share ? [] : revalued(part, 'ratedPower', power(2.1 * watts)),
  });
}

/** The sample set with a bleeder across its B battery. */
function withBleeder(rating: string): string {
  return sampleSet([
    '  detector stage DET {',
    `  resistor R2 "bleeder" 10 kilohms ${rating} from B+135 to A-
  detector stage DET {`,
  ]);
}
