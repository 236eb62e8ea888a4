import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { neutralizedExample } from '../examples/neutralized-example.ts';
import { exchanged } from '../fixes/exchange.ts';
import { type Balance, balances } from '../radio/neutralizing.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { endsAreUsed } from '../radio/radio-wiring.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A neutralizing condenser that feeds the grid with the sign of the plate. */
export const neutralizingSense: Check = {
  id: 'neutralizing-sense',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A neutralizing condenser that adds to what it should balance.',
  why: 'With the wrong sign it feeds the grid what the plate feeds it already: the stage howls more, not less.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'The sign is that of the current at the grid, by the coil as made and joined, never by a word of the text.',
    'A coil whose windings are not known well enough to tell.',
    'Another bridge, with the grid coil split in two.',
    'A winding whose sign is not the same in tune and out of tune.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: neutralizedExample({ plateEnds: 'from B+67 to V1.plate' }),
  passes: neutralizedExample({}),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  return balances(study).flatMap((balance) =>
    balance.ratios.every((ratio) => ratio > 0) ? [told(study, balance)] : [],
  );
}

function told(study: Study, { condenser, tube, from, plate }: Balance): Finding {
  const { circuit } = study;
  const [first, second] = ['start', 'finish'].map((name) =>
    plate?.ends.find((end) => end.name === name),
  );
  const edits =
    from && first && second && endsAreUsed(circuit, first.id, second.id)
      ? exchanged(circuit, first, second)
      : undefined;
  return finding({
    check: 'neutralizing-sense',
    severity: 'warning',
    message: from
      ? `${condenser.name} feeds the grid of ${tube.part.name} with the sign that its plate has: ${from.name} and ${plate?.name} stand the same way round.`
      : `${condenser.name} leads from the grid of ${tube.part.name} to its own plate.`,
    why: 'It adds to the feedback through the tube instead of balancing it, and the stage howls.',
    cure: from
      ? `Exchange the two ends of ${plate?.name}.`
      : `Take ${condenser.name} to the far end of a winding that stands opposite to ${plate?.name ?? 'the plate winding'}.`,
    place: condenser.place,
    related: [
      ...(plate ? [alsoPart(plate, 'the winding in the plate circuit')] : []),
      ...(from && from !== plate ? [alsoPart(from, 'the winding that feeds the condenser')] : []),
    ],
    parts: [condenser.name, ...(plate ? [plate.name] : [])],
    fixes: edits ? [{ title: `Exchange the ends of ${plate?.name}`, edits }] : [],
  });
}
