import type { BenchEntry, Circuit } from '@setwright/circuit';
import type { Cause } from '../../src/suspects/causes.ts';
import { type SuspectsBook, suspectsBook, suspectsOf } from '../../src/suspects/suspects-of.ts';
import { randomFrom } from './random.ts';
import { benchOf, restorerAt } from './restorer.ts';

/** How a simulated repair went. */
export interface Repair {
  readonly cause: Cause;
  /** Where the true fault, or one alike to it, stands among the suspects at the end: 0 is first. */
  readonly rank: number;
  /** The same after so many readings of the meter, from none on. */
  readonly ranks: readonly number[];
  /** The same after so many things done: readings, clicks and dials all counted. */
  readonly ranksOfAll: readonly number[];
  /** What was told of the set before anything was measured. */
  readonly heard: readonly string[];
  /** Readings, clicks and dials, in the order in which they were asked for. */
  readonly readings: readonly string[];
  /** What the suspects were at the end. */
  readonly suspects: readonly { readonly id: string; readonly probability: number }[];
}

/** A set made ready for repairs. */
export interface Workshop {
  readonly circuit: Circuit;
  readonly known: SuspectsBook;
  readonly meter: readonly BenchEntry[];
  /** Every single fault. */
  readonly causes: readonly Cause[];
}

/** Readings of the meter that a repair may take; what is heard and felt by hand comes besides. */
export const READINGS = 6;

/** Makes a set ready; with a bench its meter counts, else one of today. */
export function workshopFor(circuit: Circuit, meter: readonly BenchEntry[] = []): Workshop {
  const known = suspectsBook(circuit, { bench: benchOf(meter) });
  return {
    circuit,
    known,
    meter,
    causes: known.book.causes.filter(({ faults }) => faults.length > 0),
  };
}

/**
 * One repair: the set is listened to, then what the tool advises is done, each with its own errors,
 * until the meter has been read six times or nothing would tell more.
 */
export function repairOf({ circuit, known, meter }: Workshop, cause: Cause, seed: number): Repair {
  const random = randomFrom(seed);
  const restorer = restorerAt(known.book, cause, random);
  const told = restorer.listens();
  const heard = told.flatMap(({ text }) => (text === undefined ? [] : [text]));
  const entries: BenchEntry[] = [...meter, ...told];
  const readings: string[] = [];
  const ranks: number[] = [];
  const ranksOfAll: number[] = [];
  let metered = 0;
  for (;;) {
    const found = suspectsOf(circuit, benchOf(entries), {}, known);
    const rank = rankOf(found, cause.id);
    ranksOfAll.push(rank);
    ranks[metered] = rank;
    if (metered < READINGS && found.next) {
      const entry = restorer.does(found.next.test);
      entries.push(entry);
      readings.push(`${found.next.line}: ${entry.value?.value ?? entry.words.join(' ')}`);
      if (entry.kind === 'reading') metered += 1;
      continue;
    }
    const { suspects } = found;
    return { cause, rank, ranks, ranksOfAll, heard, readings, suspects };
  }
}

/** The sound set counts as a suspect for what nothing tells from it. */
function rankOf({ suspects, sound, unseen }: ReturnType<typeof suspectsOf>, id: string): number {
  if (unseen.some((each) => each.id === id))
    return suspects.filter(({ probability }) => probability > sound).length;
  const at = suspects.findIndex(
    (each) => each.id === id || each.alike.some((other) => other.id === id),
  );
  return at < 0 ? Number.POSITIVE_INFINITY : at;
}

/** Of so many repairs, how many found the fault first, and among the first three; shares of one. */
export interface Tally {
  readonly repairs: number;
  readonly first: number;
  readonly firstThree: number;
}

/** Counts repairs, each with a weight, after all their readings or after so many. */
export function tallyOf<Each extends Pick<Repair, 'rank' | 'ranks'>>(
  repairs: readonly Each[],
  weight: (repair: Each) => number = () => 1,
  readings = READINGS,
): Tally {
  const standsAt = ({ rank, ranks }: Each): number => ranks[readings] ?? rank;
  const sum = (of: (repair: Each) => boolean): number =>
    repairs.reduce((all, each) => all + (of(each) ? weight(each) : 0), 0);
  const whole = sum(() => true) || 1;
  return {
    repairs: repairs.length,
    first: sum((each) => standsAt(each) === 0) / whole,
    firstThree: sum((each) => standsAt(each) < 3) / whole,
  };
}

/** A fault of the set, drawn as common as it is. */
export function drawnByCommonness({ causes }: Workshop, random: () => number): Cause {
  const whole = causes.reduce((sum, each) => sum + commonnessOf(each), 0);
  let left = random() * whole;
  for (const cause of causes) {
    left -= commonnessOf(cause);
    if (left < 0) return cause;
  }
  throw new Error('the set has no faults');
}

/** How common a fault is against the others of its set. */
export function commonnessOf({ faults }: Cause): number {
  return faults[0]?.weight ?? 0;
}
