import { type FilamentGroup, LEAST_OHMS } from './filament-groups.ts';

/** What is otherwise than in the set as solved. */
export interface GroupChange {
  /** Ohms of branches, by index. */
  readonly ohms?: ReadonlyMap<number, number>;
  /** Branches that are taken out: tubes pulled from their sockets. */
  readonly without?: ReadonlySet<number>;
  /** Amperes brought to points from outside the filament wiring, such as plate currents. */
  readonly inflow?: ReadonlyMap<number, number>;
}

interface Eliminated {
  readonly point: number;
  readonly siemens: number;
  readonly inflow: number;
  readonly neighbours: readonly (readonly [point: number, siemens: number])[];
}

/**
 * Volts in a filament group with its supplies' volts held. Points are eliminated one by one, the
 * one with the fewest neighbours first, each replaced by conductances between its neighbours (the
 * star–mesh transformation). About linear for filament wiring, which is nearly a tree.
 *
 * @returns volts of a branch's `to` above its `from`, by its index; 0 where nothing flows.
 */
export function groupVolts(
  group: FilamentGroup,
  change: GroupChange = {},
): (branch: number) => number {
  const { branches, rails } = group;
  const at = new Map<number, Map<number, number>>();
  const tie = (a: number, b: number, siemens: number): void => {
    if (rails.has(a)) return;
    const here = at.get(a);
    if (here) here.set(b, (here.get(b) ?? 0) + siemens);
    else at.set(a, new Map([[b, siemens]]));
  };
  for (const [index, { from, to, ohms }] of branches.entries()) {
    if (change.without?.has(index)) continue;
    const siemens = 1 / Math.max(LEAST_OHMS, change.ohms?.get(index) ?? ohms);
    tie(from, to, siemens);
    tie(to, from, siemens);
  }
  const inflow = new Map(change.inflow);
  const order: Eliminated[] = [];
  const waiting: number[][] = [];
  let fewest = 0;
  const wait = (point: number): void => {
    const count = at.get(point)?.size ?? 0;
    fewest = Math.min(fewest, count);
    const here = waiting[count];
    if (here) here.push(point);
    else waiting[count] = [point];
  };
  for (const point of at.keys()) wait(point);
  while (at.size > 0) {
    const point = waiting[fewest]?.pop();
    if (point === undefined) {
      fewest++;
      continue;
    }
    const here = at.get(point);
    // Its neighbours may have changed since it was put here, or it is gone.
    if (here?.size !== fewest) continue;
    at.delete(point);
    const neighbours = [...here];
    const siemens = neighbours.reduce((sum, [, each]) => sum + each, 0);
    const arriving = inflow.get(point) ?? 0;
    order.push({ point, siemens, inflow: arriving, neighbours });
    for (const [neighbour, toNeighbour] of neighbours) {
      if (rails.has(neighbour)) continue;
      const share = toNeighbour / siemens;
      inflow.set(neighbour, (inflow.get(neighbour) ?? 0) + arriving * share);
      at.get(neighbour)?.delete(point);
      for (const [other, toOther] of neighbours) {
        if (other !== neighbour) tie(neighbour, other, share * toOther);
      }
      wait(neighbour);
    }
  }
  const volts = new Map(rails);
  for (const { point, siemens, inflow: arriving, neighbours } of order.reverse()) {
    let sum = arriving;
    for (const [neighbour, each] of neighbours) sum += each * (volts.get(neighbour) ?? 0);
    volts.set(point, siemens > 0 ? sum / siemens : 0);
  }
  return (index) => {
    const branch = branches[index];
    if (!branch || change.without?.has(index)) return 0;
    return (volts.get(branch.to) ?? 0) - (volts.get(branch.from) ?? 0);
  };
}

/** Ohms that stand for as many as one likes, beside filaments. */
const MANY_OHMS = 1e4;

/**
 * The ohms that one branch of a group must have for a filament to get certain volts, everything
 * else unchanged. Any voltage in a linear network is (a + bR)/(1 + cR) in one resistance R of it,
 * so three solutions tell all; undefined when no resistance from 0 up does it.
 *
 * @param wanted volts, without a sign.
 * @param others ohms of other branches that are otherwise than as solved, by index.
 */
export function ohmsFor(
  group: FilamentGroup,
  branch: number,
  filament: number,
  wanted: number,
  others: ReadonlyMap<number, number> = new Map(),
): number | undefined {
  const at = (ohms: number): number =>
    Math.abs(groupVolts(group, { ohms: new Map([...others, [branch, ohms]]) })(filament));
  const ohms = group.branches[filament]?.ohms ?? 1;
  const a = at(0);
  const first = at(ohms);
  const second = at(MANY_OHMS);
  const slopeFirst = (first - a) / ohms;
  const slopeSecond = (second - a) / MANY_OHMS;
  const c = (slopeFirst - slopeSecond) / (second - first);
  const b = slopeFirst + c * first;
  const found = (wanted - a) / (b - wanted * c);
  return Number.isFinite(found) && found >= 0 ? found : undefined;
}
