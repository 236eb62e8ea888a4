import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { regenerativeExample } from '../examples/regenerative-example.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { isAdjustable } from '../sizes/parts-played.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, nameOf } from '../words/finding.ts';

/** A smaller condenser, in farads, takes too little to matter: 30 mmfd. Common practice. */
const LEAST_FARADS = 30e-12;

/** A condenser that takes the plate's radio current home before it has been through the tickler. */
export const ticklerBypassed: Check = {
  id: 'tickler-bypassed',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A condenser that takes the plate’s radio current to the filament before the tickler.',
  why: 'The radio current never enters the tickler, and the set does not regenerate however it is turned.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A bypass at the far end of the tickler, where it belongs.',
    'A variable condenser: with a fixed tickler it is what governs regeneration.',
    'A condenser of less than 30 mmfd, or of unknown size.',
    'An oscillator, which is judged by whether it oscillates.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: regenerativeExample({ behind: behind('V1.plate') }),
  passes: regenerativeExample({ behind: behind('TIC') }),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  const all = feedbacks(study).filter(
    ({ tube, plate }) => !tube.roles.includes('oscillator') && plate.near === tube.plate?.junction,
  );
  const told = new Set<Part>();
  return all.flatMap((each) =>
    bypassesOf(study, each).flatMap((condenser) => {
      if (told.has(condenser)) return [];
      told.add(condenser);
      return [bypassed(study, each, condenser)];
    }),
  );
}

function behind(place: string): string {
  return `condenser C3 .001 mfd from ${place} to NEG
    phones PH1 2000 ohms from TIC to B+45`;
}

function bypassesOf(study: Study, { plate }: Feedback): readonly Part[] {
  const { circuit, conduction, radio } = study;
  return (conduction.at[plate.near] ?? []).flatMap((branch) => {
    const part = circuit.partNamed.get(branch.part);
    const there = branch.fromJunction === plate.near ? branch.toJunction : branch.fromJunction;
    if (part?.kind !== 'condenser' || isAdjustable(part) || !radio.isRest(there)) return [];
    return (part.values.capacitance?.value ?? 0) >= LEAST_FARADS ? [part] : [];
  });
}

function bypassed(study: Study, { tube, plate }: Feedback, condenser: Part): Finding {
  const { circuit } = study;
  const end = condenser.ends.find(({ junction }) => junction === plate.near);
  // Only a join that the condenser's own line says by the name of one terminal can be written over.
  const own = circuit.joins.filter(({ from }) => from === end?.id);
  const [join] = own;
  const far = nameOf(circuit, plate.farEnd);
  const canWrite = join && own.length === 1 && join.said !== 'across' && join.said !== 'wire';
  return finding({
    check: 'tickler-bypassed',
    severity: 'warning',
    message: `${condenser.name} of ${formatQuantity(condenser.values.capacitance?.value ?? 0, 'capacitance')} takes the radio current of ${tube.part.name} home from its plate, before it has been through ${plate.winding.name}.`,
    why: 'What does not go through the tickler cannot regenerate, however it is turned.',
    cure: `Move ${condenser.name} from ${tube.part.name}.plate to the far end of the tickler, ${far}.`,
    place: condenser.place,
    related: [
      alsoPart(plate.winding, 'the tickler that is passed by'),
      alsoPart(tube.part, 'the tube whose current it is'),
    ],
    parts: [condenser.name],
    fixes: canWrite
      ? [
          {
            title: `Move ${condenser.name} to ${far}`,
            edits: [{ place: join.place, text: far }],
          },
        ]
      : [],
  });
}
