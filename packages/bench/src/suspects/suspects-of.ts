import type { Bench, Circuit } from '@setwright/circuit';
import type { ChartOptions } from '../chart/readings.ts';
import type { Fault } from '../faults/fault.ts';
import { alikeGroups } from './alike.ts';
import { type Grounds, groundsFor, mostProbable, spotName } from './because.ts';
import { type CaseBook, caseBook } from './causes.ts';
import { type Contradiction, contradictionsOf } from './contradictions.ts';
import { type Evidence, evidenceOf } from './evidence.ts';
import { type NextStep, nextStep } from './next-step.ts';
import { nextTest } from './next-test.ts';
import { likelyPairs } from './pairs.ts';
import { countedOf, ranked, type Weighed, weighedAlone } from './posterior.ts';

/** What may be the matter, in words. */
export interface Named {
  /** As a `suppose` says it; two at once with `and` between. */
  readonly id: string;
  /** The part, or the two. */
  readonly part: string;
  /** What is the matter with it. */
  readonly fault: string;
  readonly probability: number;
}

/** A single fault, or two at once, with how probable it is by now: of it and all alike together. */
export interface Suspect extends Named, Grounds {
  /** One fault, or two. */
  readonly faults: readonly Fault[];
  /** What no reading, sound, click or dial tells from it. */
  readonly alike: readonly Named[];
  /** What may be lost by leaving the set on with it. */
  readonly dangers: readonly string[];
}

/** What a bench leads to. */
export interface Suspects {
  readonly circuit: Circuit;
  readonly bench: Bench;
  /** Readings that cannot all be true, whatever is faulty. */
  readonly contradictions: readonly Contradiction[];
  /** Readings that neither a single fault nor a likely pair explains, as the text calls them. */
  readonly unexplained: readonly string[];
  /** The most probable first. */
  readonly suspects: readonly Suspect[];
  /** How probable it is that nothing is the matter that anything here could show. */
  readonly sound: number;
  /** What can go wrong without any reading or sound to tell: as good as sound. */
  readonly unseen: readonly Named[];
  /** What to do next; undefined where nothing that can be done would tell more. */
  readonly next: NextStep | undefined;
  /** What to take care of, where volts that can hurt are measured. */
  readonly cautions: readonly string[];
  /** How much the bench says that counts. */
  readonly said: number;
}

/** A set worked out for any bench of the same meter and batteries. */
export interface SuspectsBook {
  readonly book: CaseBook;
  readonly groups: ReadonlyMap<string, number>;
}

/** Works a set out for its suspects: every single fault, and which are alike. Never throws. */
export function suspectsBook(circuit: Circuit, options: ChartOptions = {}): SuspectsBook {
  const book = caseBook(circuit, options);
  const groups = alikeGroups(book);
  return {
    book,
    groups: new Map(book.causes.map(({ id }, at) => [id, groups[at] ?? at])),
  };
}

/**
 * The suspects of a set by what a bench says of it: all single faults and the likely pairs, each
 * with how probable it is and what speaks for and against it, and what to measure next. Priors and
 * shares are common practice, and no statistics. Never throws; no number is ever NaN.
 *
 * @param known the set as worked out before, for a bench of the same meter and battery volts
 */
export function suspectsOf(
  circuit: Circuit,
  bench: Bench,
  options: Omit<ChartOptions, 'bench'> = {},
  known: SuspectsBook = suspectsBook(circuit, { ...options, bench }),
): Suspects {
  const { book, groups } = known;
  const { chart } = book.sound;
  const evidence = evidenceOf(circuit, bench, chart.meter, book.spots);
  const all = weighAll(book, evidence);
  const groupOf = ({ cause }: Weighed): number => groups.get(cause.id) ?? pairGroup(all, cause.id);
  const best = all[0];
  const found = nextTest(book, evidence, all, groupOf);
  const soundGroup = groups.get('') ?? 0;
  const contradictions = contradictionsOf(circuit, bench);
  return {
    circuit,
    bench,
    contradictions,
    unexplained: best ? slipsOf(circuit, evidence, best, contradictions) : [],
    suspects: gathered(book, evidence, all, groupOf, soundGroup),
    sound: all.reduce(
      (sum, each) => sum + (groupOf(each) === soundGroup ? each.probability : 0),
      0,
    ),
    unseen: all.flatMap((each) =>
      groupOf(each) === soundGroup && each.cause.faults.length > 0 ? [wordsOf(each)] : [],
    ),
    next: found && nextStep(book, all, groupOf, found),
    cautions: chart.cautions,
    said:
      evidence.readings.length + evidence.heard.size + evidence.clicks.size + evidence.dials.size,
  };
}

/** Every single fault and every likely pair by how probable it is. */
function weighAll(book: CaseBook, evidence: Evidence): readonly Weighed[] {
  const counted = countedOf(book, evidence);
  const singles = book.causes.map((cause) => weighedAlone(cause, evidence, counted));
  const pairs = likelyPairs(book, evidence, counted, ranked(singles));
  return ranked([...singles, ...pairs]);
}

/** Pairs are each a group of their own. */
function pairGroup(all: readonly Weighed[], id: string): number {
  return 1e6 + all.findIndex(({ cause }) => cause.id === id);
}

/** Readings that not even the most probable cause explains, but for those contradicted anyway. */
function slipsOf(
  circuit: Circuit,
  { readings }: Evidence,
  best: Weighed,
  contradictions: readonly Contradiction[],
): readonly string[] {
  const slips = mostProbable(best)?.fit.slips ?? [];
  const told = new Set(contradictions.flatMap(({ places }) => places.map(({ start }) => start)));
  return readings.flatMap(({ spot, place }, at) =>
    slips[at] && !(place && told.has(place.start)) ? [spotName(circuit, spot)] : [],
  );
}

function gathered(
  book: CaseBook,
  evidence: Evidence,
  all: readonly Weighed[],
  groupOf: (weighed: Weighed) => number,
  soundGroup: number,
): readonly Suspect[] {
  const members = new Map<number, Weighed[]>();
  for (const each of all) {
    const group = groupOf(each);
    if (group === soundGroup) continue;
    const own = members.get(group);
    if (own) own.push(each);
    else members.set(group, [each]);
  }
  return [...members.values()]
    .map((own): Suspect => {
      const [first, ...others] = own as [Weighed, ...Weighed[]];
      return {
        ...groundsFor(book, evidence, first),
        ...wordsOf(first),
        faults: first.cause.faults,
        probability: own.reduce((sum, { probability }) => sum + probability, 0),
        alike: others.map(wordsOf),
        dangers: first.cause.sounding.dangers,
      };
    })
    .sort((a, b) => b.probability - a.probability);
}

function wordsOf({ cause, probability }: Weighed): Named {
  return {
    id: cause.id,
    part: cause.faults.map(({ part }) => part).join(' and '),
    fault: cause.faults.map(({ words }) => words).join(', and '),
    probability,
  };
}
