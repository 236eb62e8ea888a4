import type { TubeAtWork } from '@setwright/analysis';
import { type Finding, openVolts } from '@setwright/circuit';
import { type AudioLinks, amplifiesAudio, audioLinks } from '../audio/audio-links.ts';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { betterTap, returnedTo, returnTap } from '../grids/return-tap.ts';
import { guessesOf } from '../sizes/guesses.ts';
import type { Study } from '../study.ts';
import { type Feed, PLATE_RESISTOR, plateFeeds } from '../supplies/plate-feed.ts';
import { type Rails, railsOf } from '../supplies/rails.ts';
import { isOverPlateLimit, overCurrentOf } from '../tubes/plate-limits.ts';
import { type PublishedBias, publishedAt, publishedOn } from '../tubes/published-bias.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { aboutAmperes, aboutTimes, aboutVolts } from '../words/about.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** Plate current over the published one, above and below which a bias is out of step. */
const MOST_TIMES = 1.6;
const LEAST_TIMES = 0.4;
/** A bias up to so many times the published one for its tap is not too much. Common practice. */
const MOST_BIAS = 1.5;
/** A first audio tube on no more plate volts than this does well without bias. */
const ZERO_BIAS_PLATE = 90 * 1.07;
/** Less than this many volts below the filament is no bias to speak of. */
const ZERO_BIAS = 1.5;
/** Bias is judged only where the filament gets about what it should. */
const FILAMENT_SHARE = 0.15;

/** An audio tube whose bias does not go with its plate volts. */
export const biasOutOfStep: Check = {
  id: 'bias-out-of-step',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'An audio tube whose bias does not suit its plate volts.',
  why: 'With too little bias the tube eats the B battery and distorts on loud notes; with too much it chokes on them.',
  silent: [
    'Radio stages, detectors, mixers and oscillators, and a reflex tube that has both to do.',
    'A tube that detects in its plate circuit and is biased nearly to nothing for it.',
    'A first audio stage on 90 V or less with no bias.',
    'A plate current between .4 and 1.6 times the published one.',
    'Before the last audio stage it is information, and where the tube draws too much outright `tube-over-current` speaks.',
    'Plate volts that are far from every published point of the type, or a tube without one.',
    'A plate that gets too little because of a resistance in its supply, while the bias suits the tap.',
    'A plate behind a high resistor, which sets the current by itself.',
    'A filament that is far from its rated volts, or a resistance that is not stated.',
    'A tap that something pulls far off its volts, as when it is strapped to another: that comes first.',
  ],
  source: 'common practice; plate currents by the three-halves power law, from the type’s points',
  needsWholeText: true,
  fails: sampleSet(['from C-9', 'from C-4.5'], ['tube V3 12-A', 'tube V3 71-A']),
  passes: sampleSet(
    ['tap C-9 -9 V', 'tap C-27 -27 V'],
    ['from C-9', 'from C-27'],
    ['tube V3 12-A', 'tube V3 71-A'],
  ),
  find(study) {
    const audio = audioLinks(study);
    const judged = study.tubes.filter(
      (tube) => amplifiesAudio(audio, tube) && tube.part.tubeType !== undefined && !isDiode(tube),
    );
    if (judged.length === 0) return [];
    const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
    const feeds = plateFeeds(study.conduction);
    const suspects = judged.flatMap((tube) => {
      const at = work.get(tube.part.name);
      const feed = tube.plate && feeds.get(tube.plate.junction);
      if (!at || !feed || feed.ohms >= PLATE_RESISTOR || isPulledOff(study, feed)) return [];
      const off = outOfStep(audio, tube, at, feed);
      return off ? [{ ...off, tube, at, feed }] : [];
    });
    if (suspects.length === 0) return [];
    const isGuess = guessesOf(study);
    const rails = railsOf(study.conduction);
    return suspects.flatMap((suspect) =>
      isGuess(suspect.tube.plate?.junction) || isGuess(suspect.tube.grid?.junction)
        ? []
        : [told(study, rails, suspect)],
    );
  },
};

/** A tap that is further than this share off its volts is not what the text says it is. */
const PULLED_OFF = 0.15;

/** Whether a tap stands far off the volts that it is stated to have, or is strapped to another. */
function isPulledOff({ operating }: Study, { supply, tap }: Feed): boolean {
  const stated = openVolts(supply, tap);
  if (stated === undefined || supply.kind !== 'battery') return false;
  const at = (end: string) => supply.ends.find(({ name }) => name === end)?.junction;
  const isStrapped = supply.supplyTaps.some(
    (other) => at(other.end) === at(tap.end) && openVolts(supply, other) !== stated,
  );
  const taps = operating.supplies.find((each) => each.supply === supply.name)?.taps;
  const volts = taps?.find((each) => each.tap === tap.end)?.volts?.value;
  const lowest = Math.min(...supply.supplyTaps.flatMap((each) => openVolts(supply, each) ?? []));
  const whole = Math.abs(stated - lowest);
  return isStrapped || (volts !== undefined && Math.abs(volts - whole) > PULLED_OFF * whole);
}

interface Off {
  readonly published: PublishedBias;
  readonly times: number;
  readonly isLast: boolean;
}

function outOfStep(audio: AudioLinks, tube: TubeAt, at: TubeAtWork, feed: Feed): Off | undefined {
  const type = tube.part.tubeType;
  const amperes = at.plateCurrent?.value;
  const bias = at.bias?.value;
  const plate = at.plateVolts?.value;
  const published = publishedOn(type, at, openVolts(feed.supply, feed.tap));
  if (amperes === undefined || bias === undefined || plate === undefined || !published)
    return undefined;
  const rated = type?.filamentVolts;
  const filament = at.filamentVolts?.value;
  if (!rated || filament === undefined) return undefined;
  if (Math.abs(Math.abs(filament) / rated - 1) > FILAMENT_SHARE) return undefined;
  const times = amperes / published.plateAmperes;
  const isHigh = times > MOST_TIMES && bias > published.gridVolts;
  // What a resistance in the supply takes from the plate is not the bias's fault.
  const onTap = publishedAt(type, openVolts(feed.supply, feed.tap), at.screenVolts?.value);
  const most = Math.min(published.gridVolts, (onTap?.gridVolts ?? 0) * MOST_BIAS);
  const isLow = times < LEAST_TIMES && bias < most;
  if (!isHigh && !isLow) return undefined;
  const before = audio.links.filter(({ to }) => to === tube).map(({ from }) => from);
  const isFirst = !before.some((driver) => amplifiesAudio(audio, driver));
  if (isFirst && plate <= ZERO_BIAS_PLATE && bias > -ZERO_BIAS) return undefined;
  const isLast = !audio.links.some(({ from }) => from === tube);
  // Said better by what wears the tube out, where this would only inform.
  if (!isLast && overCurrentOf(type, at)?.isCertain) return undefined;
  if (isOverPlateLimit(type, at)) return undefined;
  return { published, times, isLast };
}

function told(
  study: Study,
  rails: Rails,
  off: Off & { readonly tube: TubeAt; readonly at: TubeAtWork; readonly feed: Feed },
): Finding {
  const { tube, at, feed, published, times, isLast } = off;
  const { name, tubeType, typeName } = tube.part;
  const type = tubeType?.name ?? typeName ?? '';
  const bias = at.bias?.value ?? 0;
  const tap = returnTap(study, rails, tube);
  const better = tap && betterTap(tap, published.gridVolts - bias);
  const wanted = tap && tap.stands + published.gridVolts - bias;
  const isPositive = wanted !== undefined && wanted >= 0;
  return finding({
    check: 'bias-out-of-step',
    severity: isLast ? 'warning' : 'information',
    message: `${name} has ${aboutVolts(bias)} of bias and draws about ${aboutAmperes(at.plateCurrent?.value ?? 0)} from ${feed.tap.end}, ${aboutTimes(times)} the ${aboutAmperes(published.plateAmperes)} of a ${type} at its published bias, which is about ${aboutVolts(published.gridVolts)} there.`,
    why:
      times > 1
        ? 'It distorts on loud notes and eats the B battery.'
        : 'It is nearly shut off: weak, and choked on loud notes.',
    cure: better
      ? `Lead the grid return of ${name} to ${better}.`
      : tap?.battery && !isPositive && wanted !== undefined
        ? `Lead the grid return of ${name} to a C tap of about ${aboutVolts(wanted)}; ${tap.battery.name} has none.`
        : `Give the grid of ${name} about ${aboutVolts(published.gridVolts)} of bias from its own filament.`,
    place: tube.part.place,
    related: tap?.battery ? [alsoPart(tap.battery, `the bias comes from ${tap.name}`)] : [],
    parts: [name],
    fixes: better ? returnedTo(study, tube, tap, better) : [],
  });
}
