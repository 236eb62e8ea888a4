import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { superheterodyneExample } from '../examples/superheterodyne-example.ts';
import { exchanged } from '../fixes/exchange.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { radioReach } from '../radio/radio-reach.ts';
import { coilOf } from '../radio/radio-wiring.ts';
import { type Still, stillOscillator } from '../radio/still-oscillator.ts';
import { turnsWanted } from '../radio/turns-wanted.ts';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { alsoPart, finding, listed, nameOf } from '../words/finding.ts';
import { filamentOpen } from './filament-open.ts';
import { filamentUnderVoltage } from './filament-under-voltage.ts';
import { gridCondenserWithoutLeak } from './grid-condenser-without-leak.ts';
import { gridWithoutDcReturn } from './grid-without-dc-return.ts';
import { plateWithoutSupply } from './plate-without-supply.ts';

/** A local oscillator that cannot oscillate, or that nothing couples to the mixer. */
export const oscillatorSilent: Check = {
  id: 'oscillator-silent',
  group: 'Radio frequency',
  severity: 'error',
  summary:
    'A local oscillator that does not oscillate, as with windings that work against each other, or that nothing couples to the mixer.',
  why: 'Without the oscillator’s voltage in the mixer a superheterodyne hears nothing at all.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A winding of which the text does not name both ends, or not how it lies to the other.',
    'A winding that turns, so that both senses are to be had.',
    'One tapped coil, where the connections make the sense.',
    'Any coupling to any electrode of the mixer: a pick-up coil, a condenser, a common coil.',
    'A tube that is oscillator and mixer in one needs no coupling.',
    'Whether it oscillates at all is told only where tube, coil and condenser are known, and where a tube and a coupling better by a quarter would not do either, with the losses of the wire alone.',
    'A floating grid, a plate without supply or a starved filament: those come first.',
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
    const apart = uncoupled(study, tube);
    if (apart.length > 0) return apart;
    const still = stillOscillator(study, tube, own);
    return still && !isSaidBetter(study, tube) ? [told(study, tube, first, still)] : [];
  });
}

/** What says better why an oscillator is still. */
const moreBasic: readonly Check[] = [
  gridWithoutDcReturn,
  gridCondenserWithoutLeak,
  plateWithoutSupply,
  filamentOpen,
  filamentUnderVoltage,
];

function told(
  { circuit }: Study,
  tube: TubeAt,
  feedback: Feedback | undefined,
  found: Still,
): Finding {
  const { tuned, judged, still } = found;
  const who = tube.part.name;
  const isWhole = still.length === judged.length;
  const where = listed(still.map((hertz) => formatQuantity(hertz, 'frequency', 'period', 2)));
  const winding = feedback?.plate.winding;
  const place = winding ?? circuit.partNamed.get(tuned.windings[0]?.edge.part ?? '') ?? tube.part;
  return finding({
    check: 'oscillator-silent',
    severity: isWhole ? 'error' : 'warning',
    message: isWhole
      ? `The oscillator ${who} does not oscillate: what its plate feeds back to ${tuned.name} is less than that loses.`
      : `The oscillator ${who} does not oscillate with ${tuned.name} tuned to ${where}.`,
    why: isWhole
      ? 'Without the oscillator’s voltage in the mixer the set hears nothing.'
      : 'Stations for which it stands there are not heard.',
    cure: cureOf(who, found, winding),
    place: place.place,
    related: [alsoPart(tube.part, 'the oscillator')],
    parts: [...new Set([place.name, who])],
  });
}

/** By how much the plate's winding is short. */
function cureOf(tube: string, { tuned, isEnough }: Still, winding: Part | undefined): string {
  const wanted = winding && turnsWanted(winding, isEnough)?.words;
  return winding && wanted
    ? `Give ${winding.name} ${wanted}, bring it closer to ${tuned.name}, or give the plate of ${tube} more volts.`
    : `Couple plate and grid more closely at ${tuned.name}, and look what lies in the way of the radio current from ${tube}.plate to its filament.`;
}

function isSaidBetter(study: Study, tube: TubeAt): boolean {
  if (floatingGrids(study.conduction, study.tubes).tubes.has(tube)) return true;
  return moreBasic.some((check) =>
    check.find(study).some(({ parts }) => parts.includes(tube.part.name)),
  );
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
