import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged } from '../exchange.ts';
import { type Feedback, feedbacks } from '../feedback.ts';
import { alsoPart, finding, listed, nameOf } from '../finding.ts';
import { overEveryPosition } from '../radio-positions.ts';
import { radioReach } from '../radio-reach.ts';
import { coilOf } from '../radio-wiring.ts';
import type { Study } from '../study.ts';
import { superheterodyneExample } from '../superheterodyne-example.ts';
import type { TubeAt } from '../tubes.ts';

/** A local oscillator that cannot oscillate, or that nothing couples to the mixer. */
export const oscillatorSilent: Check = {
  id: 'oscillator-silent',
  group: 'Radio frequency',
  severity: 'error',
  summary:
    'A local oscillator whose windings work against each other, or that nothing couples to the mixer.',
  why: 'Without the oscillator’s voltage in the mixer a superheterodyne hears nothing at all.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A winding of which the text does not name both ends, or not how it lies to the other.',
    'A winding that turns, so that both senses are to be had.',
    'One tapped coil, where the connections make the sense.',
    'Any coupling to any electrode of the mixer: a pick-up coil, a condenser, a common coil.',
    'A tube that is oscillator and mixer in one needs no coupling.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: superheterodyneExample({ plateEnds: 'from B+67 to V2.plate' }),
  passes: superheterodyneExample({}),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  const oscillators = study.tubes.filter(({ roles }) => roles.includes('oscillator'));
  if (oscillators.length === 0) return [];
  const all = feedbacks(study);
  return oscillators.flatMap((tube): readonly Finding[] => {
    const own = all.filter((each) => each.tube === tube);
    const [first] = own;
    if (first && own.every(({ helps, isMovable }) => !isMovable && (helps ?? 0) < 0))
      return [opposed(study, first)];
    return uncoupled(study, tube);
  });
}

function opposed(study: Study, { tube, grid, plate }: Feedback): Finding {
  const { circuit } = study;
  const [start, finish] = ['start', 'finish'].map((name) =>
    plate.winding.ends.find((end) => end.name === name),
  );
  const isWhole = [plate.plateEnd, plate.farEnd].every(
    (id) => id === start?.id || id === finish?.id,
  );
  const edits = start && finish && isWhole ? exchanged(circuit, start, finish) : undefined;
  return finding({
    check: 'oscillator-silent',
    severity: 'error',
    message: `The oscillator ${tube.part.name} cannot oscillate: with its grid on ${nameOf(circuit, grid.gridEnd)} its plate must not be on ${nameOf(circuit, plate.plateEnd)}.`,
    why: `${plate.winding.name} takes from ${grid.winding.name} what it should give, and the set hears nothing.`,
    cure: `Exchange the two ends of ${plate.winding.name}.`,
    place: plate.winding.place,
    related: [
      alsoPart(grid.winding, 'the winding that drives its grid'),
      alsoPart(tube.part, 'the oscillator'),
    ],
    parts: [plate.winding.name, tube.part.name],
    fixes: edits ? [{ title: `Exchange the ends of ${plate.winding.name}`, edits }] : [],
  });
}

function uncoupled(study: Study, tube: TubeAt): readonly Finding[] {
  const { radio } = study;
  if (tube.roles.includes('mixer') || tube.roles.includes('detector')) return [];
  const mixers = study.tubes.filter(({ roles }) => roles.includes('mixer'));
  const circuits = [...radio.gridCircuits, ...radio.plateCircuits].filter(
    (each) => each.tube === tube,
  );
  const [first] = circuits;
  if (mixers.length === 0 || !first) return [];
  const { junctions } = radioReach(
    study,
    circuits.map(({ winding }) => coilOf(winding)),
    [tube.grid, tube.plate].flatMap((end) => (end ? [end.junction] : [])),
  );
  const isReached = mixers.some(({ part }) =>
    part.ends.some(({ junction }) => junctions.has(junction)),
  );
  if (isReached) return [];
  const names = listed(mixers.map(({ part }) => part.name));
  return [
    finding({
      check: 'oscillator-silent',
      severity: 'error',
      message: `Nothing couples the oscillator ${tube.part.name} with its coil ${coilOf(first.winding)} to the mixer ${names}.`,
      why: 'The mixer then has the signal alone, and nothing comes out of it at the intermediate frequency.',
      cure: `Put a pick-up winding of ${coilOf(first.winding)} in series with the grid circuit of ${mixers[0]?.part.name ?? 'the mixer'}.`,
      place: tube.part.place,
      related: mixers.map(({ part }) => alsoPart(part, 'the mixer')),
      parts: [tube.part.name],
    }),
  ];
}
