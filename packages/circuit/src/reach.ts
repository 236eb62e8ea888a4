import type { Direct } from './branch.ts';
import type { Conduction, JoinedBranch } from './conduction.ts';
import { leastFirst } from './heap.ts';
import { supposedOhms } from './supposed-ohms.ts';

/** One part passed on a path. */
export interface Step {
  readonly part: string;
  /** Full names of the terminals it is entered and left by. */
  readonly from: string;
  readonly to: string;
  /**
   * What lies between them. A source's volts are those of `to` above `from`, whichever way the
   * part itself is drawn.
   */
  readonly direct: Direct;
  /** The junction arrived at. */
  readonly junction: number;
}

/** Something that stops direct current at the edge of what was reached. */
export interface Blocker {
  readonly part: string;
  /** The terminal on the side that was reached, and the one beyond. */
  readonly from: string;
  readonly to: string;
  readonly because: string;
  /** The junction reached before it. */
  readonly junction: number;
  /** Parts between the start and it; sections of one tapped part count as one between them. */
  readonly distance: number;
  /** Whether the goal lies beyond it: with this part conducting, there would be a path. */
  readonly goalBeyond: boolean;
}

export type DirectPath =
  | {
      readonly found: true;
      /** Empty when the start is itself a goal. */
      readonly steps: readonly Step[];
      /** The junction of the goal. */
      readonly junction: number;
    }
  | {
      readonly found: false;
      /** Condensers and open contacts, nearest first, the likelier of equals first; then tubes. */
      readonly blockers: readonly Blocker[];
      /** Every junction that direct current reaches from the start. */
      readonly reached: ReadonlySet<number>;
    };

export interface PathOptions {
  /** Whether a path may lead through batteries and eliminators. True where not given. */
  readonly throughSources?: boolean;
  /** Names of parts that no path may lead through. */
  readonly skip?: ReadonlySet<string>;
  /** Which branches a path may lead through, besides `skip`. All where not given. */
  readonly passes?: (branch: JoinedBranch) => boolean;
  /**
   * What makes a path the shortest: fewest parts, and fewest ohms of equals (where not given);
   * or fewest ohms, with a usual value for a resistance that is not known.
   */
  readonly prefer?: 'parts' | 'ohms';
}

/**
 * What passing one whole part costs. Divisible by every number of sections up to 16, so that the
 * sections of a tapped winding add up to one part exactly.
 */
const ONE_PART = 720_720;

/**
 * The shortest path for direct current from a junction to the nearest one that is a goal, and
 * what stops it when there is none. n log n in what is reached. Never throws.
 */
export function directPath(
  conduction: Conduction,
  fromJunction: number,
  isGoal: (junction: number) => boolean,
  options: PathOptions = {},
): DirectPath {
  const { circuit } = conduction;
  const { throughSources = true, skip, passes, prefer = 'parts' } = options;
  const conducts = (branch: JoinedBranch): boolean =>
    branch.direct.kind !== 'blocks' &&
    (throughSources || branch.direct.kind !== 'source') &&
    !skip?.has(branch.part) &&
    (passes?.(branch) ?? true);
  const parts = new Map<number, number>([[fromJunction, 0]]);
  const ohms = new Map<number, number>([[fromJunction, 0]]);
  const arrivedBy = new Map<number, JoinedBranch>();
  const settled = new Set<number>();
  const queue = leastFirst();
  if (circuit.junctions[fromJunction]) queue.push(fromJunction, 0, 0);
  for (let next = queue.pop(); next; next = queue.pop()) {
    const here = next.item;
    if (settled.has(here)) continue;
    settled.add(here);
    if (isGoal(here)) return { found: true, steps: stepsTo(here, arrivedBy), junction: here };
    for (const branch of conduction.at[here] ?? []) {
      if (!conducts(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (settled.has(there)) continue;
      const partsThere = (parts.get(here) ?? 0) + costOf(conduction, branch);
      const ohmsThere = (ohms.get(here) ?? 0) + ohmsOf(conduction, branch);
      const [first, second] = prefer === 'ohms' ? [ohmsThere, partsThere] : [partsThere, ohmsThere];
      const [oldFirst, oldSecond] =
        prefer === 'ohms'
          ? [ohms.get(there), parts.get(there)]
          : [parts.get(there), ohms.get(there)];
      if (
        oldFirst !== undefined &&
        oldSecond !== undefined &&
        (oldFirst < first || (oldFirst === first && oldSecond <= second))
      )
        continue;
      parts.set(there, partsThere);
      ohms.set(there, ohmsThere);
      arrivedBy.set(there, branch);
      queue.push(there, first, second);
    }
  }
  return {
    found: false,
    blockers: blockersOf(conduction, settled, parts, isGoal, conducts),
    reached: settled,
  };
}

/** What passing a branch costs: one part, or its share of a tapped one. */
function costOf(conduction: Conduction, branch: JoinedBranch): number {
  const taps = conduction.circuit.partNamed.get(branch.part)?.taps.length ?? 0;
  return taps > 0 ? ONE_PART / (taps + 1) : ONE_PART;
}

function ohmsOf(conduction: Conduction, branch: JoinedBranch): number {
  if (branch.direct.kind === 'blocks') return 0;
  const known = branch.direct.ohms;
  return known !== undefined && known >= 0 ? known : supposedOhms(conduction.circuit, branch).ohms;
}

/** A branch as passed from one of its junctions. */
export function stepFrom(branch: JoinedBranch, here: number): Step {
  if (branch.fromJunction === here) {
    const { part, from, to, direct, toJunction } = branch;
    return { part, from, to, direct, junction: toJunction };
  }
  const direct =
    branch.direct.kind === 'source' && branch.direct.volts !== undefined
      ? { ...branch.direct, volts: -branch.direct.volts }
      : branch.direct;
  return {
    part: branch.part,
    from: branch.to,
    to: branch.from,
    direct,
    junction: branch.fromJunction,
  };
}

function stepsTo(goal: number, arrivedBy: ReadonlyMap<number, JoinedBranch>): Step[] {
  const steps: Step[] = [];
  let here = goal;
  for (let branch = arrivedBy.get(here); branch; branch = arrivedBy.get(here)) {
    const before = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
    steps.push(stepFrom(branch, before));
    here = before;
  }
  return steps.reverse();
}

function blockersOf(
  conduction: Conduction,
  reached: ReadonlySet<number>,
  parts: ReadonlyMap<number, number>,
  isGoal: (junction: number) => boolean,
  conducts: (branch: JoinedBranch) => boolean,
): Blocker[] {
  const home = junctionsThatReach(conduction, isGoal, conducts);
  const blockers: (Blocker & { readonly rank: number })[] = [];
  for (const branch of conduction.branches) {
    const fromReached = reached.has(branch.fromJunction);
    if (branch.direct.kind !== 'blocks' || fromReached === reached.has(branch.toJunction)) continue;
    const junction = fromReached ? branch.fromJunction : branch.toJunction;
    const beyond = fromReached ? branch.toJunction : branch.fromJunction;
    const isTube = conduction.circuit.partNamed.get(branch.part)?.kind === 'tube';
    blockers.push({
      part: branch.part,
      from: fromReached ? branch.from : branch.to,
      to: fromReached ? branch.to : branch.from,
      because: branch.direct.because,
      junction,
      distance: (parts.get(junction) ?? 0) / ONE_PART,
      goalBeyond: home.has(beyond),
      // A tube's cold electrode is never what is wrong while anything else blocks.
      rank: isTube ? 1 : 0,
    });
  }
  blockers.sort(
    (a, b) =>
      a.rank - b.rank || a.distance - b.distance || Number(b.goalBeyond) - Number(a.goalBeyond),
  );
  return blockers.map(({ rank: _, ...blocker }) => blocker);
}

/** Every junction from which a goal can be reached. */
function junctionsThatReach(
  conduction: Conduction,
  isGoal: (junction: number) => boolean,
  conducts: (branch: JoinedBranch) => boolean,
): ReadonlySet<number> {
  const found = new Set<number>();
  const waiting: number[] = [];
  for (const { index } of conduction.circuit.junctions) {
    if (!isGoal(index)) continue;
    found.add(index);
    waiting.push(index);
  }
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    for (const branch of conduction.at[here] ?? []) {
      if (!conducts(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (found.has(there)) continue;
      found.add(there);
      waiting.push(there);
    }
  }
  return found;
}

/**
 * For every junction the number of the island it belongs to: junctions of one island are tied
 * together by conductors and supplies, so that volts between them mean something. Islands are
 * numbered from 0 in the order of their first junction.
 */
export function directIslands(conduction: Conduction): readonly number[] {
  const island: number[] = conduction.circuit.junctions.map(() => -1);
  let count = 0;
  for (let start = 0; start < island.length; start++) {
    if (island[start] !== -1) continue;
    island[start] = count;
    const waiting = [start];
    for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
      for (const branch of conduction.at[here] ?? []) {
        if (branch.direct.kind === 'blocks') continue;
        const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
        if (island[there] !== -1) continue;
        island[there] = count;
        waiting.push(there);
      }
    }
    count++;
  }
  return island;
}
