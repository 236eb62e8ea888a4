import type { Conduction, Finding } from '@setwright/circuit';
import type { Study } from '../study.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { radioStudyOf } from './radio-study.ts';

/**
 * The findings of a radio check as drawn, judged over every position: what some other position of
 * a switch, selector or jack cures is only information. The other positions are looked at only
 * where there is a finding.
 */
export function overEveryPosition(
  study: Study,
  find: (study: Study) => readonly Finding[],
): readonly Finding[] {
  const drawn = find(study);
  if (drawn.length === 0 || study.everyPosition.length < 2) return drawn;
  const judged = judgedOverPositions(
    study,
    (conduction) => new Set(find(standing(study, conduction)).map(keyOf)),
  );
  return drawn.map((each) => {
    const curedBy = judged.get(keyOf(each))?.curedBy;
    if (!curedBy) return each;
    const words = standingWords(study.circuit, study.on.settings, curedBy);
    return {
      ...each,
      severity: 'information',
      cure: `Nothing, if it is meant: it is not so with ${words}.`,
      fixes: [],
    };
  });
}

const keyOf = ({ parts }: Finding): string => parts.join(' ');

/** The study of the same set with its controls otherwise. Everything else stays as it was asked. */
function standing(study: Study, conduction: Conduction): Study {
  if (conduction === study.conduction) return study;
  // Made from the study itself, so that what it computes only when asked stays uncomputed.
  return Object.create(study, {
    conduction: { value: conduction },
    radio: { value: radioStudyOf(conduction, study.tubes) },
  }) as Study;
}
