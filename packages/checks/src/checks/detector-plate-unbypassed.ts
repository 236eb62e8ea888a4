import type { Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { regenerativeExample } from '../examples/regenerative-example.ts';
import { bypassed } from '../fixes/edits.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { isAirWinding, lowestFrequency } from '../radio/radio-use.ts';
import type { Study } from '../study.ts';
import { plateResistanceOf } from '../tubes/tube-data.ts';
import { alsoPart, finding, listed, nameOf } from '../words/finding.ts';

/** Less than this share of the plate's radio current leaves too little for the tickler. */
const LEAST_SHARE = 0.5;

/** Farads of wiring and socket behind a tickler: 10 mmfd. Common practice. */
const STRAY = 10e-12;

/** A regenerative detector whose radio current cannot get home behind the tickler. */
export const detectorPlateUnbypassed: Check = {
  id: 'detector-plate-unbypassed',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A regenerative detector with no low way for radio current behind its tickler.',
  why: 'Radio current that cannot get home does not flow through the tickler, and the set does not regenerate.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'Phones, a horn or a transformer behind the tickler: their own capacity lets radio current pass.',
    'A detector without a tickler, which can do without.',
    'A way home that leaves half of the radio current or more.',
    'A throttle condenser, counted at its most.',
    'A tube whose type does not give its plate resistance.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: regenerativeExample({ behind: behind('') }),
  passes: regenerativeExample({ behind: behind('condenser C3 .0003 mfd from TIC to NEG\n    ') }),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  return feedbacks(study).flatMap((each) => {
    const { tube } = each;
    if (tube.roles.includes('oscillator') || tube.roles.includes('radio')) return [];
    return told(study, each) ?? [];
  });
}

function told(study: Study, { tube, plate }: Feedback): Finding | undefined {
  const { circuit, radio } = study;
  const ohms = plateResistanceOf(tube);
  const frequency = lowestFrequency(circuit, tube);
  if (ohms === undefined || frequency === undefined || radio.isRest(plate.far)) return undefined;
  const ways = radio.ways(frequency);
  const way = ways.at(plate.far);
  // Where nothing at all leads home there is no supply either, and that is said elsewhere.
  if (!way) return undefined;
  let [resistive, reactive, before] = [0, 0, 0];
  const names: string[] = [];
  for (const step of way.steps()) {
    const part = circuit.partNamed.get(step.part);
    const here = ways.at(step.junction)?.ohms ?? before;
    if (part && !isAirWinding(circuit, part)) {
      if (part.kind === 'resistor' || part.kind === 'leak') resistive += here - before;
      else reactive += here - before;
      if (here - before >= way.ohms / 20) names.push(part.name);
    }
    before = here;
  }
  // Wiring and sockets are there in any case.
  const stray = 1 / (2 * Math.PI * frequency * STRAY);
  const isStray = way.ohms > stray;
  const share = isStray
    ? ohms / Math.hypot(ohms, stray)
    : ohms / Math.hypot(ohms + resistive, reactive);
  if (share >= LEAST_SHARE) return undefined;
  const far = nameOf(circuit, plate.farEnd);
  return finding({
    check: 'detector-plate-unbypassed',
    severity: 'warning',
    message: `Behind ${plate.winding.name} the radio current of ${tube.part.name} has only ${listed([...[...new Set(names)].reverse(), ...(isStray ? ['stray capacity'] : [])])}: ${formatQuantity(Math.min(way.ohms, stray), 'resistance', 'period', 2)} at ${formatQuantity(frequency, 'frequency')}.`,
    why: `That leaves ${formatQuantity(share, 'percent', 'period', 2)} of it for the tickler, and the set hardly regenerates.`,
    cure: `Put a condenser of .00025 to .001 mfd from ${far} to ${tube.reference?.id ?? 'the filament'}.`,
    place: tube.part.place,
    related: [alsoPart(plate.winding, 'the tickler')],
    parts: [tube.part.name],
    fixes: bypassed(circuit, tube.part, '.00025 mfd', far, tube.reference?.id),
  });
}

function behind(bypass: string): string {
  return `${bypass}resistor R2 100 kilohms from TIC to B+45
    condenser C5 .006 mfd from TIC to PHX
    bus PHX
    resistor R3 100 kilohms from PHX to NEG`;
}
