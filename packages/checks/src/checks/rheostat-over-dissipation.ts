import type { Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { amperesFullOn } from '../filaments/full-on.ts';
import { revalued } from '../fixes/edits.ts';
import { allowedCurrent, amperesAtWork, REST_ERROR } from '../sizes/allowed-current.ts';
import { guessesOf } from '../sizes/guesses.ts';
import type { Study } from '../study.ts';
import { aboutAmperes } from '../words/about.ts';
import { ohms } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A rheostat whose wire carries more current than it bears. */
export const rheostatOverDissipation: Check = {
  id: 'rheostat-over-dissipation',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A rheostat whose wire carries more current than it is rated for.',
  why: 'The few turns in use carry all of the current: they burn, whatever the whole rheostat may bear.',
  silent: [
    'A rheostat with no rating, as nearly all are.',
    'A rating in watts is for the whole wire: the part in use bears the same current, not the same watts.',
    'What only the end of its travel does is information.',
    'Up to a tenth over is information: the reckoning is no better.',
    'A current that hangs on a resistance that is not stated.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: withRheostat('30 ohms 1 W'),
  passes: withRheostat('10 ohms 1 W'),
  find(study) {
    const rated = study.circuit.parts.filter(
      (part) => part.kind === 'rheostat' && allowedCurrent(part) !== undefined,
    );
    if (rated.length === 0) return [];
    const isRated = new Set(rated);
    const working = amperesAtWork(study.operating.parts);
    const worst = new Map<string, number>();
    const lit = new Map<string, readonly Part[]>();
    for (const group of study.filamentGroups) {
      for (const [name, amperes] of amperesFullOn(group, (part) => isRated.has(part)))
        worst.set(name, amperes);
      for (const { part } of group.branches)
        if (isRated.has(part)) lit.set(part.name, tubesOf(study, group.branches));
    }
    const isGuess = guessesOf(study);
    return rated.flatMap((part): Finding[] => {
      const allowed = allowedCurrent(part) ?? 0;
      const now = working.get(part.name);
      const most = worst.get(part.name) ?? 0;
      if (now === undefined) return [];
      const isOver = now > allowed;
      if (!isOver && !(most > allowed * (1 + REST_ERROR))) return [];
      if (part.ends.some(({ junction }) => isGuess(junction))) return [];
      return [told(part, allowed, isOver ? now : most, isOver, lit.get(part.name) ?? [])];
    });
  },
};

function tubesOf(
  { circuit }: Study,
  branches: readonly { readonly part: Part }[],
): readonly Part[] {
  return branches.flatMap(({ part }) =>
    part.kind === 'tube' ? (circuit.partNamed.get(part.name) ?? []) : [],
  );
}

function told(
  part: Part,
  allowed: number,
  amperes: number,
  isNow: boolean,
  tubes: readonly Part[],
): Finding {
  const isCertain = isNow && amperes > allowed * (1 + REST_ERROR);
  const verb = isCertain ? 'carries' : isNow ? 'may carry' : 'would carry';
  const when = isNow ? '' : ' with none of it in';
  const { ratedCurrent, ratedPower, resistance } = part.values;
  const wire = ratedCurrent
    ? `it is rated for ${aboutAmperes(allowed)}`
    : `its wire bears ${aboutAmperes(allowed)}, ${ratedPower?.text} in the whole ${ohms(resistance?.value ?? 0)}`;
  return finding({
    check: 'rheostat-over-dissipation',
    severity: isCertain ? 'warning' : 'information',
    message: `${part.name} ${verb} ${aboutAmperes(amperes)}${when}: ${wire}.`,
    why: 'The turns in use carry all of the current, and burn.',
    cure: isNow
      ? `Use a rheostat for ${part.name} whose wire bears ${aboutAmperes(amperes * SPARE)}, or give its tubes rheostats of their own.`
      : `Do not turn ${part.name} full on, or use one whose wire bears ${aboutAmperes(amperes * SPARE)}.`,
    place: part.place,
    related: tubes
      .slice(0, MOST_TUBES)
      .map((tube) => alsoPart(tube, `${tube.name} is lit through it`)),
    parts: [part.name],
    fixes: ratedCurrent
      ? revalued(part, 'ratedCurrent', aboutAmperes(amperes * SPARE))
      : revalued(
          part,
          'ratedPower',
          `${Math.ceil((amperes * SPARE) ** 2 * (resistance?.value ?? 0))} W`,
        ),
  });
}

/** Something in hand, over what a wire has to carry. Common practice. */
const SPARE = 1.25;
const MOST_TUBES = 8;

/** The sample set with a rheostat for its last tube. */
function withRheostat(size: string): string {
  return sampleSet(['resistor F3 4 ohms', `rheostat RH3 ${size} set 4 ohms`]);
}
