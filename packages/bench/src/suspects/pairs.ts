import { mostProbable } from './because.ts';
import { bothOf, type CaseBook, type Cause, soundingOfBoth } from './causes.ts';
import type { Evidence } from './evidence.ts';
import type { Foreseen } from './foreseen.ts';
import { type Counted, jointFit } from './joint-fit.ts';
import { earLog, type Weighed, weighedAlone } from './posterior.ts';

/** Of so many single faults each is looked at together with every other one. */
const FIRSTS = 10;
/** So many pairs are worked out in full. */
const WORKED_OUT = 24;
/** A pair is worth naming when the evidence is so many nepers likelier than with either alone. */
const BETTER = 2.5;

/** Whether a cause leaves a reading unexplained. What is told besides may be imagined. */
function leavesOpen(weighed: Weighed): boolean {
  return mostProbable(weighed)?.fit.slips.some((slip) => slip) ?? false;
}

/**
 * Pairs of faults that explain together what none explains alone; none where a single fault
 * explains it all. Each is first guessed at as the sum of what either does, and the best of them
 * are worked out.
 *
 * @param ranked single faults, the most probable first
 */
export function likelyPairs(
  book: CaseBook,
  evidence: Evidence,
  counted: readonly Counted[],
  ranked: readonly Weighed[],
): readonly Omit<Weighed, 'probability'>[] {
  const [first] = ranked;
  if (!first || !leavesOpen(first)) return [];
  const sound = foreseenOf(book.causes[0], evidence);
  const alone = new Map(ranked.map((each) => [each.cause, each.log]));
  const singles = ranked.filter(({ cause }) => cause.faults.length === 1);
  const all = singles.map(({ cause }) => ({ cause, foreseen: foreseenOf(cause, evidence) }));
  const guesses: { one: Cause; other: Cause; log: number }[] = [];
  const seen = new Set<string>();
  for (const one of all.slice(0, FIRSTS)) {
    for (const other of all) {
      const key = [one.cause.id, other.cause.id].sort().join(' and ');
      if (one.cause.faults[0]?.part === other.cause.faults[0]?.part || seen.has(key)) continue;
      seen.add(key);
      const together = one.foreseen.map((each, at) => added(each, other.foreseen[at], sound[at]));
      const sounding = soundingOfBoth(one.cause.sounding, other.cause.sounding);
      const log = jointFit(counted, together).log + earLog(sounding, evidence);
      guesses.push({
        one: one.cause,
        other: other.cause,
        log: log + Math.log(one.cause.prior * other.cause.prior),
      });
    }
  }
  guesses.sort((a, b) => b.log - a.log);
  return guesses.slice(0, WORKED_OUT).flatMap(({ one, other }) => {
    const both = weighedAlone(bothOf(book, one, other), evidence, counted);
    const either = Math.max(alone.get(one) ?? 0, alone.get(other) ?? 0);
    return both.log > either + BETTER ? [both] : [];
  });
}

function foreseenOf(
  cause: Cause | undefined,
  { readings }: Evidence,
): readonly (Foreseen | undefined)[] {
  return readings.map(({ spot }) => cause?.states[0]?.set.foresee(spot));
}

/** What one fault makes of a reading, and what another adds to it. */
function added(
  one: Foreseen | undefined,
  other: Foreseen | undefined,
  sound: Foreseen | undefined,
): Foreseen | undefined {
  if (!one || !other || !sound) return one ?? other;
  if (!Number.isFinite(one.mean) || !Number.isFinite(sound.mean)) return other;
  if (!Number.isFinite(other.mean)) return other;
  return { ...one, mean: one.mean + other.mean - sound.mean };
}
