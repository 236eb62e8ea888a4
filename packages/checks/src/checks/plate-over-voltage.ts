import type { TubeAtWork } from '@setwright/analysis';
import { type Finding, openVolts, type SupplyTap } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { guessesOf } from '../sizes/guesses.ts';
import { type Feed, plateFeeds, plateTapsOf } from '../supplies/plate-feed.ts';
import { FRESH, isOverPlateLimit } from '../tubes/plate-limits.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { volts } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

const onMoreVolts = [
  ['tap B+135 135 V', 'tap B+180 180 V'],
  ['to B+135', 'to B+180'],
  ['tap C-9 -9 V', 'tap C-13 -13.5 V'],
  ['from C-9', 'from C-13'],
] as const;

/** A plate or screen on more volts than its type may have. */
export const plateOverVoltage: Check = {
  id: 'plate-over-voltage',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A plate that stands higher above its filament than the limit of its type.',
  why: 'A hard tube wears out before its time and may flash over inside; a gas detector ionizes and roars.',
  silent: [
    'Fresh cells give a few percent more than their name: up to 7 % over the limit is nothing.',
    'Plate volts are counted at work, from the tube’s own F−: what a resistor or a transformer drops is taken off.',
    'B− on A+ adds the filament battery’s volts, which is quite usual.',
    'A tube with no bias draws too much and has no more volts for it: that is `tube-over-current`.',
    'A type of which no limit is published, or volts that hang on a resistance that is not stated.',
  ],
  source: 'common practice; the limits are those of the tube type’s own data',
  needsWholeText: true,
  fails: sampleSet(...onMoreVolts, ['tube V3 12-A', 'tube V3 01-A']),
  passes: sampleSet(...onMoreVolts),
  find(study) {
    const { circuit, tubes } = study;
    const isLimited = ({ part: { tubeType } }: TubeAt): boolean =>
      tubeType?.plateLimit !== undefined || tubeType?.screenLimit !== undefined;
    if (!tubes.some(isLimited)) return [];
    const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
    const over = tubes.flatMap((tube) => {
      const at = work.get(tube.part.name);
      return at ? overLimit(tube, at) : [];
    });
    if (over.length === 0) return [];
    const isGuess = guessesOf(study);
    const feeds = plateFeeds(study.conduction);
    return over.flatMap((each): Finding[] => {
      const { tube, electrode, stands, limit } = each;
      const end = tube[electrode];
      if (!end || isGuess(end.junction)) return [];
      const feed = feeds.get(end.junction);
      const type = tube.part.tubeType?.name ?? tube.part.typeName ?? '';
      const emitter = tube.cathode ? 'cathode' : 'filament';
      const supply = feed && circuit.partNamed.get(feed.supply.name);
      return [
        finding({
          check: 'plate-over-voltage',
          severity: 'warning',
          message: `The ${electrode} of ${tube.part.name} stands ${volts(stands)} above its ${emitter}; a ${type} may have ${volts(limit)} there.`,
          why: tube.part.tubeType?.soft
            ? 'Above its limit the gas in it ionizes: it roars, and is soon spoilt.'
            : 'The tube wears out before its time, and may flash over inside.',
          cure: cureFor(tube, electrode, limit, feed),
          place: tube.part.place,
          related: supply ? [alsoPart(supply, `${feed.tap.end} feeds it`)] : [],
          parts: [tube.part.name],
        }),
      ];
    });
  },
};

interface Over {
  readonly tube: TubeAt;
  readonly electrode: 'plate' | 'screen';
  readonly stands: number;
  readonly limit: number;
}

/** What of a tube is over its limit: its plate, else its screen. */
function overLimit(tube: TubeAt, work: TubeAtWork): Over[] {
  const type = tube.part.tubeType;
  const stands = work.plateVolts?.value;
  if (stands !== undefined && type?.plateLimit !== undefined && isOverPlateLimit(type, work))
    return [{ tube, electrode: 'plate', stands, limit: type.plateLimit }];
  const screen = work.screenVolts?.value;
  const limit = type?.screenLimit;
  if (screen === undefined || limit === undefined || !(limit > 0) || screen <= limit * FRESH)
    return [];
  return [{ tube, electrode: 'screen', stands: screen, limit }];
}

function cureFor(tube: TubeAt, electrode: string, limit: number, feed: Feed | undefined): string {
  const { name } = tube.part;
  const lower = feed && highestUpTo(feed, limit);
  if (lower) return `Feed the ${electrode} of ${name} from ${lower.end} or lower.`;
  return `Feed the ${electrode} of ${name} from a tap of no more than ${volts(limit)}, or fit a type that bears more.`;
}

/** The highest tap of the same supply that the limit allows. */
function highestUpTo({ supply }: Feed, limit: number): SupplyTap | undefined {
  let best: SupplyTap | undefined;
  let most = 0;
  for (const tap of plateTapsOf(supply)) {
    const stands = openVolts(supply, tap);
    if (stands === undefined || stands > limit * FRESH || stands <= most) continue;
    most = stands;
    best = tap;
  }
  return best;
}
