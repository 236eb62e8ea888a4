import type { Spot } from '../chart/spot.ts';
import { BROAD, clickOf } from '../effects/symptoms.ts';
import type { CaseBook, Cause, Sounding } from './causes.ts';
import type { Foreseen } from './foreseen.ts';
import { sharedVariance } from './joint-fit.ts';

/**
 * Two faults are alike when all readings of the chart together set them apart by less than this
 * many standard deviations, and the ear and the dials by nothing.
 */
const APART = 1;

/**
 * For every cause the number of the group of those that no reading, sound, click or dial tells it
 * from. Groups are numbered in the order of the causes.
 */
export function alikeGroups({ causes, spots }: CaseBook): readonly number[] {
  const sound = causes[0]?.states[0]?.set;
  const finite = spots.map((spot) => sound?.foresee(spot));
  const whitener = whitenerOf(finite);
  const groups: number[] = [];
  const heads = new Map<string, { group: number; at: Float64Array }[]>();
  let count = 0;
  for (const cause of causes) {
    const { key, off } = signatureOf(cause, spots, finite);
    const at = whitener(off);
    const known = heads.get(key) ?? [];
    heads.set(key, known);
    const same = known.find((head) => distance(head.at, at) < APART);
    if (same) {
      groups.push(same.group);
      continue;
    }
    known.push({ group: count, at });
    groups.push(count);
    count += 1;
  }
  return groups;
}

/** What has to be the very same, and by how much each reading is off the sound set's. */
function signatureOf(
  { sounding, states }: Cause,
  spots: readonly Spot[],
  sound: readonly (Foreseen | undefined)[],
): { readonly key: string; readonly off: Float64Array } {
  const set = states[0]?.set;
  const words: string[] = [soundingKey(sounding)];
  const off = new Float64Array(spots.length);
  for (const [index, spot] of spots.entries()) {
    const now = set?.foresee(spot);
    const before = sound[index];
    if (!now || !Number.isFinite(now.mean)) words.push(`${index}${now ? ' open' : ' unknown'}`);
    else if (before && Number.isFinite(before.mean)) off[index] = now.mean - before.mean;
    // Where the sound set shows open, ohms of any size are told by their own size.
    else off[index] = now.mean;
  }
  return { key: words.join(', '), off };
}

function soundingKey({ heard, clicks, deadDials, dialsLeft }: Sounding): string {
  const taps = [...clicks].map(([tube, louder]) => `${tube} ${clickOf(louder)}`);
  const broad = [...dialsLeft].flatMap(([dial, left]) => (left < BROAD ? [dial] : []));
  return [[...heard], taps, [...deadDials], broad].map((all) => all.sort().join(' ')).join(' / ');
}

/** Turns differences into ones of which each is a standard deviation by itself. */
function whitenerOf(
  foreseen: readonly (Foreseen | undefined)[],
): (off: Float64Array) => Float64Array {
  const count = foreseen.length;
  const factor = new Float64Array(count * count);
  for (let row = 0; row < count; row++) {
    const one = usable(foreseen[row]);
    for (let column = 0; column <= row; column++) {
      const other = usable(foreseen[column]);
      let sum = one && other ? sharedVariance(one.slopes, other.slopes) : 0;
      if (row === column) sum = one ? sum + one.own : SURE;
      for (let at = 0; at < column; at++)
        sum -= (factor[row * count + at] as number) * (factor[column * count + at] as number);
      factor[row * count + column] =
        row === column
          ? Math.sqrt(Math.max(sum, one?.own ?? SURE, Number.MIN_VALUE))
          : sum / (factor[column * count + column] as number);
    }
  }
  return (off) => {
    const at = new Float64Array(count);
    for (let row = 0; row < count; row++) {
      let sum = off[row] as number;
      for (let column = 0; column < row; column++)
        sum -= (factor[row * count + column] as number) * (at[column] as number);
      at[row] = sum / (factor[row * count + row] as number);
    }
    return at;
  };
}

/** Variance of a spot of which the sound set says nothing, or open. */
const SURE = 0.1 ** 2;

function usable(foreseen: Foreseen | undefined): Foreseen | undefined {
  return foreseen && Number.isFinite(foreseen.mean) ? foreseen : undefined;
}

function distance(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < one.length; at++) sum += ((one[at] as number) - (other[at] as number)) ** 2;
  return Math.sqrt(sum);
}
