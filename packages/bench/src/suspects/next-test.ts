import { CLICKS } from '../effects/symptoms.ts';
import type { CaseBook } from './causes.ts';
import { type Evidence, wasOn } from './evidence.ts';
import type { Foreseen } from './foreseen.ts';
import type { DialTold } from './hearing.ts';
import { OHMS_FIELD, sharedVariance, slipLog, varianceOf } from './joint-fit.ts';
import { clickShare, dialShare, fieldOf, type Weighed } from './posterior.ts';
import { costOf, type Test, testsLeft } from './tests.ts';

/** The test that best tells apart what is left. */
export interface NextTest {
  readonly test: Test;
  /** Bits that it is expected to tell. */
  readonly bits: number;
}

/** One cause in one degree, as it bears on what a next test shows. */
interface Live {
  readonly group: number;
  readonly probability: number;
  readonly weighed: Weighed;
  readonly state: Weighed['states'][number];
}

/** Causes beyond this share of all are not worth telling apart, nor more than so many at once. */
const COUNTED = 0.998;
const MOST_LIVE = 150;
/** A test that tells less than this is not worth its while. */
const LEAST_BITS = 0.03;
/** Where the outcomes of a normal law are looked at, and how they weigh (Gauss and Hermite). */
const NODES: readonly (readonly [at: number, weight: number])[] = [
  [-1.7320508075688772, 1 / 6],
  [0, 2 / 3],
  [1.7320508075688772, 1 / 6],
];
/** An ohmmeter shows open, or does not, in this share though it should not. */
const OPEN_SLIP = 0.01;
const ROOT = 0.5 * Math.log(2 * Math.PI);

/**
 * The test of most expected information for its cost; undefined where none tells anything.
 *
 * @param ranked causes with their probabilities
 * @param groupOf the number of a cause's group of those alike
 */
export function nextTest(
  book: CaseBook,
  evidence: Evidence,
  ranked: readonly Weighed[],
  groupOf: (weighed: Weighed) => number,
): NextTest | undefined {
  const live = liveOf(ranked, groupOf);
  const danger = live.reduce(
    (sum, { weighed, probability }) =>
      sum + (weighed.cause.sounding.dangers.length > 0 ? probability : 0),
    0,
  );
  const hasBeenOn = wasOn(evidence);
  let best: NextTest | undefined;
  let most = 0;
  for (const test of testsLeft(book, evidence)) {
    const bits = expectedBits(book, test, live);
    if (bits < LEAST_BITS) continue;
    const usual =
      test.kind === 'reading' ? book.causes[0]?.states[0]?.set.foresee(test.spot) : undefined;
    const volts =
      test.kind === 'reading' && test.spot.quantity === 'voltage' ? (usual?.mean ?? 0) : 0;
    const worth = bits / costOf(test, volts, danger, hasBeenOn);
    if (worth > most * (1 + 1e-9)) [best, most] = [{ test, bits }, worth];
  }
  return best;
}

function liveOf(
  ranked: readonly Weighed[],
  groupOf: (weighed: Weighed) => number,
): readonly Live[] {
  const all = ranked
    .flatMap((weighed) =>
      weighed.states.map((state) => ({
        group: groupOf(weighed),
        probability: weighed.probability * state.share,
        weighed,
        state,
      })),
    )
    .sort((a, b) => b.probability - a.probability);
  let sum = 0;
  const live: Live[] = [];
  for (const each of all) {
    if (sum >= COUNTED || live.length >= MOST_LIVE) break;
    sum += each.probability;
    live.push(each);
  }
  return live.map((each) => ({ ...each, probability: each.probability / sum }));
}

/** The mutual information of a test's outcome and the group that the cause is of, in bits. */
function expectedBits(book: CaseBook, test: Test, live: readonly Live[]): number {
  const groups = groupsOf(live);
  if (groups.size < 2) return 0;
  if (test.kind !== 'reading') {
    if (test.kind === 'dial')
      return bitsOfWord(live, groups, DIALS, ({ cause }, told) =>
        dialShare(cause.sounding, test.dial, told),
      );
    return bitsOfWord(live, groups, CLICKS, ({ cause }, told) =>
      clickShare(cause.sounding, test.tube, told),
    );
  }
  const { spot } = test;
  const laws = live.map(({ state }) => lawNow(state, state.state.set.foresee(spot)));
  const opens = laws.map((law) =>
    law === undefined ? 0.3 : law.mean === Number.POSITIVE_INFINITY ? 1 - OPEN_SLIP : OPEN_SLIP,
  );
  const isOhms = spot.quantity === 'resistance';
  let bits = isOhms ? bitsOfChance(live, groups, opens) : 0;
  const closed = live.map((each, at) =>
    isOhms ? each.probability * (1 - (opens[at] as number)) : each.probability,
  );
  const whole = closed.reduce((a, b) => a + b, 0);
  if (whole <= 0) return bits;
  const field = isOhms ? OHMS_FIELD : fieldOf(book, spot);
  const within = live.map((each, at) => ({ ...each, probability: (closed[at] as number) / whole }));
  bits += whole * bitsOfValue(within, groups, laws, field);
  return bits;
}

/** What a reading is foreseen to be with all that was read before counted in. */
function lawNow({ fit }: Live['state'], each: Foreseen | undefined): Law | undefined {
  if (!each) return undefined;
  if (!Number.isFinite(each.mean)) return { mean: each.mean, variance: 0, foreseen: each };
  const { kept, precision, pull } = fit;
  const count = kept.length;
  let mean = each.mean;
  let variance = varianceOf(each.slopes, each.own);
  const shared = kept.map(({ slopes }) => sharedVariance(slopes, each.slopes));
  for (let row = 0; row < count; row++) {
    const own = shared[row] as number;
    if (own === 0) continue;
    mean += own * (pull[row] as number);
    for (let column = 0; column < count; column++)
      variance -= own * (precision[row * count + column] as number) * (shared[column] as number);
  }
  return { mean, variance: Math.max(variance, each.own, 1e-24), foreseen: each };
}

interface Law {
  readonly mean: number;
  readonly variance: number;
  readonly foreseen: Foreseen;
}

function groupsOf(live: readonly Live[]): ReadonlyMap<number, number> {
  const places = new Map<number, number>();
  for (const { group } of live) if (!places.has(group)) places.set(group, places.size);
  return places;
}

const DIALS: readonly DialTold[] = ['stands', 'broad', 'no effect'];

/** Of a test that is told in one word of a few. */
function bitsOfWord<Word>(
  live: readonly Live[],
  groups: ReadonlyMap<number, number>,
  words: readonly Word[],
  shareOf: (weighed: Weighed, word: Word) => number,
): number {
  const before = new Float64Array(groups.size);
  let after = 0;
  for (const word of words) {
    const told = new Float64Array(groups.size);
    for (const { group, probability, weighed } of live) {
      const place = groups.get(group) as number;
      const share = probability * shareOf(weighed, word);
      told[place] = (told[place] as number) + share;
      before[place] = (before[place] as number) + share;
    }
    after += surprise(told);
  }
  return Math.max(0, surprise(before) - after);
}

function bitsOfChance(
  live: readonly Live[],
  groups: ReadonlyMap<number, number>,
  shares: readonly number[],
): number {
  const yes = new Float64Array(groups.size);
  const no = new Float64Array(groups.size);
  for (const [at, { group, probability }] of live.entries()) {
    const place = groups.get(group) as number;
    const share = shares[at] as number;
    yes[place] = (yes[place] as number) + probability * share;
    no[place] = (no[place] as number) + probability * (1 - share);
  }
  const before = Float64Array.from(yes, (each, at) => each + (no[at] as number));
  return Math.max(0, surprise(before) - surprise(yes) - surprise(no));
}

/** The entropy of a share of all, weighed by the share: −Σ p log₂(p / Σ p). */
function surprise(shares: Float64Array): number {
  let whole = 0;
  for (const share of shares) whole += share;
  if (whole <= 0) return 0;
  let sum = 0;
  for (const share of shares) if (share > 0) sum -= share * Math.log2(share / whole);
  return sum;
}

/** Causes of which a reading is foreseen alike, with how probable each group is among them. */
interface Cluster {
  readonly mean: number;
  readonly scale: number;
  readonly foreseen: Foreseen;
  readonly shares: Float64Array;
}

/** Laws are one when their means are nearer than this part of their spread, and that is alike. */
const ONE_MEAN = 0.15;
const ONE_SCALE = 1.15;

function clustersOf(
  live: readonly Live[],
  groups: ReadonlyMap<number, number>,
  laws: readonly (Law | undefined)[],
): readonly Cluster[] {
  const known = laws
    .flatMap((law, at) => (law && Number.isFinite(law.mean) ? [{ law, at }] : []))
    .sort((a, b) => a.law.mean - b.law.mean || a.law.variance - b.law.variance || a.at - b.at);
  const clusters: Cluster[] = [];
  for (const { law, at } of known) {
    const scale = Math.sqrt(law.variance);
    const same = clusters.findLast(
      (each) =>
        law.mean - each.mean < ONE_MEAN * Math.min(scale, each.scale) &&
        scale < ONE_SCALE * each.scale &&
        each.scale < ONE_SCALE * scale,
    );
    const cluster = same ?? {
      mean: law.mean,
      scale,
      foreseen: law.foreseen,
      shares: new Float64Array(groups.size),
    };
    if (!same) clusters.push(cluster);
    const { group, probability } = live[at] as Live;
    const place = groups.get(group) as number;
    cluster.shares[place] = (cluster.shares[place] as number) + probability;
  }
  return clusters;
}

function bitsOfValue(
  live: readonly Live[],
  groups: ReadonlyMap<number, number>,
  laws: readonly (Law | undefined)[],
  field: number,
): number {
  const clusters = clustersOf(live, groups, laws);
  const before = new Float64Array(groups.size);
  // Of what nothing is foreseen anything may be shown.
  const flat = new Float64Array(groups.size);
  let unknown = 0;
  for (const [at, { group, probability }] of live.entries()) {
    const place = groups.get(group) as number;
    before[place] = (before[place] as number) + probability;
    const law = laws[at];
    if (law && Number.isFinite(law.mean)) continue;
    flat[place] = (flat[place] as number) + probability / field;
    unknown += probability;
  }
  if (clusters.length + (unknown > 0 ? 1 : 0) < 2) return 0;
  const whole = surprise(before);
  const now = new Float64Array(groups.size);
  let after = unknown * whole;
  for (const { mean, scale, shares } of clusters) {
    const weight = shares.reduce((a, b) => a + b, 0);
    if (weight <= 0) continue;
    for (const [node, part] of NODES) {
      const y = mean + node * scale;
      now.set(flat);
      for (const other of clusters) {
        const density = densityAt(other, y, field);
        for (let place = 0; place < now.length; place++)
          now[place] = (now[place] as number) + density * (other.shares[place] as number);
      }
      const all = now.reduce((a, b) => a + b, 0);
      if (all > 0) after += (weight * part * surprise(now)) / all;
    }
  }
  return Math.max(0, whole - after);
}

function densityAt({ mean, scale, foreseen }: Cluster, y: number, field: number): number {
  const z = (y - mean) / scale;
  const near = z * z < 60 ? Math.exp(-0.5 * z * z - ROOT) / scale : 0;
  return Math.abs(z) > 2.5 ? near + Math.exp(slipLog({ value: y, field }, foreseen)) : near;
}
