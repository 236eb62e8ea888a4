import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { regenerativeExample } from '../examples/regenerative-example.ts';
import { exchanged } from '../fixes/exchange.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, nameOf } from '../words/finding.ts';

/** A tickler that works against the grid. */
export const ticklerSense: Check = {
  id: 'tickler-sense',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A tickler whose direction takes from the grid what it should give.',
  why: 'Turned up, it makes the set weaker and never regenerates.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A tickler that turns passes through both senses.',
    'A winding of which the text does not name both ends, or not how it lies to the grid winding.',
    'In a stage that is no detector feedback the other way round calms the stage: information.',
    'One tapped coil, where the connections make the sense.',
    'An oscillator is the business of `oscillator-silent`.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: regenerativeExample({ tickler: 'from TIC to V1.plate' }),
  passes: regenerativeExample({}),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  return feedbacks(study).flatMap((each) => {
    const { helps, isMovable, tube } = each;
    if (helps === undefined || helps > 0 || isMovable) return [];
    return tube.roles.includes('oscillator') ? [] : [told(study, each)];
  });
}

function told(study: Study, { tube, grid, plate }: Feedback): Finding {
  const { circuit } = study;
  const isDetector = tube.roles.includes('detector') || tube.roles.length === 0;
  const [start, finish] = ['start', 'finish'].map((name) =>
    plate.winding.ends.find((end) => end.name === name),
  );
  const isWhole = [plate.plateEnd, plate.farEnd].every(
    (id) => id === start?.id || id === finish?.id,
  );
  const edits = start && finish && isWhole ? exchanged(circuit, start, finish) : undefined;
  return finding({
    check: 'tickler-sense',
    severity: isDetector ? 'warning' : 'information',
    message: `${plate.winding.name} works against the grid: with the grid on ${nameOf(circuit, grid.gridEnd)} the plate of ${tube.part.name} must not be on ${nameOf(circuit, plate.plateEnd)}.`,
    why: isDetector
      ? 'It weakens what it should make up for, and the set does not regenerate.'
      : 'It makes the stage calmer and weaker, which may be what it is there for.',
    cure: isDetector
      ? `Exchange the two ends of ${plate.winding.name}.`
      : `Nothing, if it is meant to calm the stage; else exchange the ends of ${plate.winding.name}.`,
    place: plate.winding.place,
    related: [
      alsoPart(grid.winding, 'the winding that drives the grid'),
      alsoPart(tube.part, 'the tube between the two'),
    ],
    parts: [plate.winding.name],
    fixes: edits ? [{ title: `Exchange the ends of ${plate.winding.name}`, edits }] : [],
  });
}
