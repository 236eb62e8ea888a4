import type { Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { trfExample } from '../examples/trf-example.ts';
import { bypassed } from '../fixes/edits.ts';
import { type PlateReturn, plateReturns, sharedReturns } from '../radio/plate-returns.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { amplifiesRadio } from '../radio/radio-use.ts';
import { windingsFrom } from '../radio/radio-wiring.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { OPENED_BYPASS } from '../words/opened-bypass.ts';

/** What is left of the plate's radio current when 2 decibels are lost. */
const TWO_DECIBELS = 10 ** (-2 / 20);

/** A plate whose radio current has no low way home. */
export const noRadioReturn: Check = {
  id: 'no-radio-return',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A plate circuit whose radio current has no low way back to its filament.',
  why: `Radio current that must go home through a resistor or a choke hardly flows: the stage loses what it should amplify. ${OPENED_BYPASS}`,
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'Plate leads through a battery with no bypass, as most sets to 1926 had.',
    'A return that costs less than 2 decibels.',
    'A transformer, phones or a horn: their own capacity lets radio current pass.',
    'Audio plates, which never need a radio return.',
    'A return that stages share is the business of `shared-supply-path`.',
    'A tube whose type does not give its plate resistance.',
  ],
  source: 'common practice, roughly computed',
  needsWholeText: true,
  fails: trfExample({ feed: feed('') }).replace('V1.plate to B+67', 'V1.plate to RFB'),
  passes: trfExample({ feed: feed('\n  condenser C7 .006 mfd from RFB to NEG') }).replace(
    'V1.plate to B+67',
    'V1.plate to RFB',
  ),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  const returns = plateReturns(study);
  const poor = returns.filter(
    ({ tube, keeps }) => keeps < TWO_DECIBELS && amplifiesRadio(study.circuit, tube),
  );
  if (poor.length === 0) return [];
  const shared = new Set(sharedReturns(study, returns).flatMap(({ tubes }) => tubes));
  return poor.flatMap((each) => (shared.has(each.tube) ? [] : (told(study, each) ?? [])));
}

function told(
  study: Study,
  { tube, ohms, frequency, keeps, through }: PlateReturn,
): Finding | undefined {
  const { radio, conduction, circuit } = study;
  const [first] = through;
  const plate = tube.plate;
  // A plate with no winding of its own for radio is not a radio plate.
  const load = plate && windingsFrom(conduction, plate.junction, radio.isRest)[0];
  if (!first || !load) return undefined;
  const lost = -20 * Math.log10(keeps);
  const cold = radio.plateCircuits.find((each) => each.tube === tube)?.farEnd;
  const home = tube.reference?.id ?? 'its filament';
  return finding({
    check: 'no-radio-return',
    severity: 'warning',
    message: `The radio current of ${tube.part.name} has no low way home: through ${listed(through.map(({ name }) => name))} it is ${formatQuantity(ohms, 'resistance', 'period', 2)} at ${formatQuantity(frequency, 'frequency')}.`,
    why: `That costs the stage ${formatQuantity(lost, 'number', 'period', 2)} decibels, and feeds other stages what they should not hear. No voltmeter finds it: every DC voltage is as it would be with a bypass.`,
    cure: `Put a condenser of .006 to .5 mfd from ${cold ?? 'the cold end of its coil'} to ${home}.`,
    place: circuit.partNamed.get(load.winding.name)?.place ?? tube.part.place,
    related: [
      alsoPart(tube.part, 'the tube whose current it is'),
      ...through.map((part) => alsoPart(part, 'in the way of the radio current')),
    ],
    parts: [tube.part.name, load.winding.name],
    fixes: bypassed(circuit, tube.part, '.5 mfd', cold, tube.reference?.id),
  });
}

function feed(bypass: string): string {
  return `condenser C6 .5 mfd from B+67 to NEG
  bus RFB
  resistor R6 12 kilohms from B+67 to RFB${bypass}`;
}
