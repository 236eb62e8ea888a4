import type { Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { trfExample } from '../examples/trf-example.ts';
import { bypassed } from '../fixes/edits.ts';
import {
  LEAST_LOOP_GAIN,
  LOUD_LOOP_GAIN,
  plateReturns,
  type SharedReturn,
  sharedReturns,
} from '../radio/plate-returns.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';
import { OPENED_BYPASS } from '../words/opened-bypass.ts';

/** No more tubes than this are named in one sentence. */
const MOST_NAMED = 5;

/** Radio stages that are coupled through one supply. */
export const sharedSupplyPath: Check = {
  id: 'shared-supply-path',
  group: 'Radio frequency',
  severity: 'warning',
  summary:
    'Radio stages whose current goes home through one supply with enough impedance to make them sing.',
  why: `What the last stage leaves on the supply the first one amplifies again: howls and squeals that no dial takes away. ${OPENED_BYPASS}`,
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A fresh block of 30 ohms with no bypass, as most sets to 1926 had: it does no harm to three tubes.',
    'A loop gain below .3; from .3 to .7 it is told as information, before the block ages.',
    'A bypass on the tap, whatever the block’s resistance.',
    'An eliminator, whose own filter condensers pass radio current.',
    'A tube whose type does not give its amplification and plate resistance.',
    'A block whose resistance nobody has told is never more than information.',
    'Audio stages on one tap: `motorboats` judges those.',
  ],
  source: 'common practice, roughly computed',
  needsWholeText: true,
  fails: trfExample({
    feed: 'resistor R6 2000 ohms from B+67 to RFB\n  bus RFB',
    plates: 'RFB',
  }),
  passes: trfExample({
    feed: 'resistor R6 2000 ohms from B+67 to RFB\n  bus RFB\n  condenser C6 .5 mfd from RFB to NEG',
    plates: 'RFB',
  }),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  if (study.tubes.length < 2) return [];
  const shared = sharedReturns(study, plateReturns(study));
  return shared.flatMap((each) => (each.parts.length > 0 ? [told(study, each)] : []));
}

function told(study: Study, shared: SharedReturn): Finding {
  const { circuit } = study;
  const { tubes, ohms, frequency, loopGain, parts, isSupposed } = shared;
  const named = tubes.length > MOST_NAMED ? tubes.slice(0, MOST_NAMED - 1) : tubes;
  const names = [
    ...named.map(({ part }) => part.name),
    ...(named.length < tubes.length ? [`${tubes.length - named.length} more tubes`] : []),
  ];
  const isLoud = loopGain >= LOUD_LOOP_GAIN && !isSupposed;
  const through = listed(parts.map(({ name }) => name));
  const gain =
    loopGain > 10 ? 'far above 1' : `of ${formatQuantity(loopGain, 'number', 'period', 2)}`;
  const starts = formatQuantity(ohms / loopGain, 'resistance', 'period', 2);
  const warns = formatQuantity((ohms / loopGain) * LEAST_LOOP_GAIN, 'resistance', 'period', 2);
  const at = junctionName(circuit, shared.junction);
  const [first] = parts;
  return finding({
    check: 'shared-supply-path',
    severity: isLoud ? 'warning' : 'information',
    message: `The radio current of ${listed(names)} goes home through ${through}: ${formatQuantity(ohms, 'resistance', 'period', 2)} at ${formatQuantity(frequency, 'frequency')} that they share, a loop gain ${gain}.`,
    why: isLoud
      ? `With about ${starts} in common they sing by themselves. No voltmeter finds it: every DC voltage is as it would be with a bypass.`
      : `Nothing is amiss yet${isSupposed ? ', by a usual resistance for the block' : ''}: at about ${starts} in common they would sing.`,
    cure: isLoud
      ? `Put a bypass of .5 mfd from ${at} to the filaments (${tubes[0]?.reference?.id ?? 'F-'}).`
      : `A bypass of .5 mfd from ${at} to the filaments, before the way has aged past ${warns}.`,
    place: first?.place ?? circuit.namePlace,
    related: named.map(({ part }) => alsoPart(part, 'its radio current goes this way')),
    parts: [...parts.map(({ name }) => name)],
    fixes: first ? bypassed(circuit, first, '.5 mfd', at, tubes[0]?.reference?.id) : [],
  });
}
