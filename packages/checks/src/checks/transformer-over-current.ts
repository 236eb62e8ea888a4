import { type Finding, openVolts, type Part } from '@setwright/circuit';
import { audioLinks } from '../audio/audio-links.ts';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { revalued } from '../fixes/edits.ts';
import { amperesAtWork, REST_ERROR } from '../sizes/allowed-current.ts';
import { guessesOf } from '../sizes/guesses.ts';
import type { Study } from '../study.ts';
import { plateFeeds } from '../supplies/plate-feed.ts';
import { overCurrentOf } from '../tubes/plate-limits.ts';
import { publishedOn } from '../tubes/published-bias.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { aboutAmperes } from '../words/about.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** An interstage primary or a horn with no rating is seldom good for more, in amperes. */
const SELDOM_MORE = 10e-3;

/** A tube that draws so many times its published current is out of step with its bias. */
const MOST_OVER_PUBLISHED = 1.6;

const reproducers: ReadonlySet<string> = new Set(['horn', 'phones', 'speaker']);

/** A winding, horn or phones with more direct current in it than it bears. */
export const transformerOverCurrent: Check = {
  id: 'transformer-over-current',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A transformer, choke, horn or phones with more direct current than they bear.',
  why: 'Fine wire burns out, iron is saturated so that the low notes go, and a horn’s magnet is pulled or weakened.',
  silent: [
    'No rating is stated, as of nearly all: then it is a hint, above 10 mA, for an interstage primary, a horn or phones.',
    'An output transformer or an output choke with no rating: they are made for it.',
    'Up to a tenth over its rating is information: the reckoning is no better.',
    'A tube that draws far too much is the fault itself, and `tube-over-current` or `bias-out-of-step` speaks of it.',
    'A current that hangs on a resistance that is not stated.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: withRating('1 mA'),
  passes: withRating('5 mA'),
  find(study) {
    const audio = audioLinks(study);
    const primaries = new Set<Part>(
      audio.links.flatMap((link) => (link.kind === 'transformer' ? [link.primary] : [])),
    );
    const judged = study.circuit.parts.filter(
      (part) => ratedOf(part) !== undefined || primaries.has(part) || reproducers.has(part.kind),
    );
    if (judged.length === 0) return [];
    const working = amperesAtWork(study.operating.parts);
    const over = judged.flatMap((part) => {
      const amperes = working.get(part.name);
      const allowed = ratedOf(part);
      return amperes !== undefined && amperes > (allowed ?? SELDOM_MORE * (1 + REST_ERROR))
        ? [{ part, amperes, allowed }]
        : [];
    });
    if (over.length === 0) return [];
    const isGuess = guessesOf(study);
    const greedy = greedyTubes(study);
    return over.flatMap(({ part, amperes, allowed }): Finding[] => {
      if (part.ends.some(({ junction }) => isGuess(junction))) return [];
      const groups = new Set(part.ends.map(({ junction }) => audio.groups.of[junction] ?? -1));
      const drivers = [...groups].flatMap((group) => audio.groups.plates.get(group) ?? []);
      if (drivers.some((tube) => greedy.has(tube))) return [];
      return [told(part, amperes, allowed, drivers)];
    });
  },
};

/** The stated current of a part that direct current is not good for. */
function ratedOf({ kind, values }: Part): number | undefined {
  if (kind !== 'winding' && kind !== 'choke' && !reproducers.has(kind)) return undefined;
  const rated = values.ratedCurrent?.value;
  return rated !== undefined && rated > 0 ? rated : undefined;
}

/** Tubes that draw far more than their type does: what they burn is not to blame. */
function greedyTubes(study: Study): ReadonlySet<TubeAt> {
  const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
  const feeds = plateFeeds(study.conduction);
  return new Set(
    study.tubes.filter((tube) => {
      const at = work.get(tube.part.name);
      if (!at) return false;
      if (overCurrentOf(tube.part.tubeType, at)?.isCertain) return true;
      const feed = tube.plate && feeds.get(tube.plate.junction);
      const tap = feed && openVolts(feed.supply, feed.tap);
      const published = publishedOn(tube.part.tubeType, at, tap);
      const amperes = at.plateCurrent?.value ?? 0;
      return published !== undefined && amperes > MOST_OVER_PUBLISHED * published.plateAmperes;
    }),
  );
}

function told(
  part: Part,
  amperes: number,
  allowed: number | undefined,
  drivers: readonly TubeAt[],
): Finding {
  const isCertain = allowed !== undefined && amperes > allowed * (1 + REST_ERROR);
  const severity = allowed === undefined ? 'hint' : isCertain ? 'warning' : 'information';
  const carries = isCertain || allowed === undefined ? 'carries' : 'may carry';
  const from = drivers.length > 0 ? ` of ${listed(drivers.map((tube) => tube.part.name))}` : '';
  const limit =
    allowed === undefined
      ? `more than ${part.kind === 'winding' ? 'an interstage primary' : 'a horn or phones'} of the time as a rule ${part.kind === 'winding' ? 'bears' : 'bear'}`
      : `and is rated for ${aboutAmperes(allowed)}`;
  const isSound = reproducers.has(part.kind);
  return finding({
    check: 'transformer-over-current',
    severity,
    message:
      `${part.name} carries about ${aboutAmperes(amperes)} of direct current${from}, ${limit}.`.replace(
        ' carries ',
        ` ${carries} `,
      ),
    why: isSound
      ? 'The steady pull spoils the sound, weakens the magnet and may burn the winding.'
      : 'Its iron is saturated, the low notes go, and the wire may burn out.',
    cure: isSound
      ? `Put a choke and a condenser, or an output transformer, before ${part.name}.`
      : `Use a winding that bears ${aboutAmperes(amperes)}, or lead the direct current past it through a choke or a resistor.`,
    place: part.place,
    related: drivers.map((tube) => alsoPart(tube.part, `${tube.part.name} draws it`)),
    parts: [part.name],
    fixes: isSound ? [] : revalued(part, 'ratedCurrent', aboutAmperes(1.1 * amperes)),
  });
}

function withRating(rating: string): string {
  return sampleSet([
    'winding primary 14 H 800 ohms from V2.plate',
    `winding primary 14 H 800 ohms ${rating} from V2.plate`,
  ]);
}
