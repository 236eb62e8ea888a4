import type { TubeAtWork } from '@setwright/analysis';
import type { Finding, Fix } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { betterTap, returnedTo, returnTap } from '../grids/return-tap.ts';
import { amplifiesRadio } from '../radio/radio-use.ts';
import { guessesOf } from '../sizes/guesses.ts';
import type { Study } from '../study.ts';
import { PLATE_RESISTOR, plateFeeds } from '../supplies/plate-feed.ts';
import { railsOf } from '../supplies/rails.ts';
import { FRESH, isOverPlateLimit, overCurrentOf } from '../tubes/plate-limits.ts';
import { publishedAt } from '../tubes/published-bias.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { aboutAmperes, aboutTimes, aboutVolts } from '../words/about.ts';
import { volts } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A tube that draws far more plate current than its type is published with. */
export const tubeOverCurrent: Check = {
  id: 'tube-over-current',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A plate current half as much again as the highest that is published for the type.',
  why: 'The tube loses its emission in weeks, the B battery is eaten, and a transformer or horn in the plate lead is saturated.',
  silent: [
    'A type of which no plate current is published.',
    'An oscillator: its current is not that of a tube at rest.',
    'No more than half as much again as the published current at the highest published plate volts.',
    'Up to a tenth above that it is information: the reckoning is no better.',
    'A radio tube with no bias on 90 V or less, which was usual, is told as information.',
    'A plate behind a high resistor, which sets the current by itself.',
    'A plate above its voltage limit is the business of `plate-over-voltage`.',
    'A current that hangs on a resistance that is not stated.',
  ],
  source: 'common practice; plate currents by the three-halves power law, from the type’s points',
  needsWholeText: true,
  fails: sampleSet(['from V2.plate to B+90', 'from V2.plate to B+135']),
  passes: sampleSet(),
  find(study) {
    const judged = study.tubes.filter(
      (tube) =>
        tube.part.tubeType !== undefined && !isDiode(tube) && !tube.roles.includes('oscillator'),
    );
    if (judged.length === 0) return [];
    const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
    const over = judged.flatMap((tube) => {
      const at = work.get(tube.part.name);
      const found = at && overCurrentOf(tube.part.tubeType, at);
      return found && !isOverPlateLimit(tube.part.tubeType, at) ? [{ tube, at, found }] : [];
    });
    if (over.length === 0) return [];
    const isGuess = guessesOf(study);
    const feeds = plateFeeds(study.conduction);
    return over.flatMap(({ tube, at, found }): Finding[] => {
      if (isGuess(tube.plate?.junction) || isGuess(tube.grid?.junction)) return [];
      const feed = tube.plate && feeds.get(tube.plate.junction);
      if (feed && feed.ohms >= PLATE_RESISTOR) return [];
      const tap = feed ? ` from ${feed.tap.end}` : '';
      const bias = at.bias ?? at.freeGrid;
      const stands = bias ? ` with ${aboutVolts(bias.value)} of bias` : '';
      const wanted = publishedAt(tube.part.tubeType, at.plateVolts?.value, at.screenVolts?.value);
      return [
        finding({
          check: 'tube-over-current',
          severity: found.isCertain && !isUsual(study, tube, at) ? 'warning' : 'information',
          message: `${tube.part.name} ${found.isCertain ? 'draws' : 'may draw'} about ${aboutAmperes(found.amperes)}${tap}${stands}, ${aboutTimes(found.times)} what a ${nameOf(tube)} is published with at ${volts(found.point.plateVolts)} (${aboutAmperes(found.point.plateAmperes)}).`,
          why: 'The tube soon loses its emission, the B battery is eaten, and what lies in the plate lead is saturated or burnt.',
          cure:
            wanted && feed
              ? `Give its grid about ${aboutVolts(wanted.gridVolts)} of bias, or feed its plate from a lower tap than ${feed.tap.end}.`
              : 'Give its grid more bias, or feed its plate from a lower tap.',
          place: tube.part.place,
          related: feed ? [alsoPart(feed.supply, `${feed.tap.end} feeds it`)] : [],
          parts: [tube.part.name],
          fixes: wanted ? moreBias(study, tube, wanted.gridVolts - (bias?.value ?? 0)) : [],
        }),
      ];
    });
  },
};

/** The fix that leads the grid's return to the tap of its C battery that fits. */
function moreBias(study: Study, tube: TubeAt, change: number): readonly Fix[] {
  const tap = returnTap(study, railsOf(study.conduction), tube);
  const better = tap && betterTap(tap, change);
  return better ? returnedTo(study, tube, tap, better) : [];
}

/** Radio tubes did well with no bias on so many volts, and with what that costs. Common practice. */
const USUAL_PLATE = 90 * FRESH;
/** Less than this many volts below the filament is no bias to speak of. */
const NO_BIAS = 1.5;

function isUsual({ circuit }: Study, tube: TubeAt, { plateVolts, bias }: TubeAtWork): boolean {
  if (!amplifiesRadio(circuit, tube) || !plateVolts || !bias) return false;
  return plateVolts.value <= USUAL_PLATE && bias.value > -NO_BIAS && bias.value < NO_BIAS;
}

const nameOf = ({ part }: TubeAt): string => part.tubeType?.name ?? part.typeName ?? '';
