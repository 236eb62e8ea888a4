import type { Circuit, Part } from '@setwright/circuit';
import type { Capacity } from './capacities.ts';
import { capacityAcross, type FaradsBetween } from './capacity-across.ts';
import { type InductiveEdge, mutualOf } from './inductive-paths.ts';
import { separateGroups } from './islands.ts';
import { type Resistance, surroundingsOf } from './surroundings.ts';
import type { Tank, Tanks } from './tanks.ts';

/** What the capacity across a tuned circuit is made of, in farads. */
export interface TankCapacity {
  /** With the tuning condenser at so many farads. */
  readonly least: number;
  readonly most: number;
  /** With the tuning condenser taken out. */
  readonly without: number;
  /** Parts other than the tuning condenser that put more than a trace in. */
  readonly others: readonly Capacity[];
  /** Siemens across the whole, by part; those of lossers grow as the square of frequency. */
  readonly loads: readonly TankLoad[];
}

/** A resistance that damps a tuned circuit, as a conductance across the whole of it. */
export interface TankLoad {
  readonly part: Part;
  /** Siemens at any frequency. */
  readonly siemens: number;
  /** Siemens over the square of radians per second: a resistance before a capacity. */
  readonly perSquare: number;
}

/** Less than this share of the whole is no part of a tuned circuit's capacity. */
const TRACE = 0.002;

/**
 * The capacity across a tank with its tuner out and in. Other windings count as wire: they are far
 * from their resonance. Points along the tank's own windings, and beyond a tap, stand at the share
 * of the voltage that the field gives them.
 */
export function tankCapacity(
  circuit: Circuit,
  all: Tanks,
  tank: Tank,
  tuner: Capacity | undefined,
): TankCapacity {
  const { points } = all;
  const own = new Set(tank.path.map(({ edge }) => edge.part));
  const shares = sharesAlong(tank, ownEdges(all, tank, own));
  const {
    edges,
    capacities,
    lossers: small,
    loads,
  } = surroundingsOf(all.at, shares.keys(), points.ground);
  const joined = separateGroups(circuit.junctions.length);
  const fixed = new Map<number, number>(shares);
  const join = (a: number, b: number): boolean => {
    const one = joined.of(a);
    const other = joined.of(b);
    const first = fixed.get(one);
    const second = fixed.get(other);
    if (one === other || (first !== undefined && second !== undefined)) return false;
    joined.merge(one, other);
    const share = first ?? second;
    if (share !== undefined) fixed.set(joined.of(one), share);
    return true;
  };
  for (const edge of edges) if (!own.has(edge.part)) join(edge.from, edge.to);
  const lossers = small.filter(({ near, far }) => join(near, far));
  const held = new Map([...fixed].map(([point, share]) => [joined.of(point), share] as const));
  const rest = points.ground === undefined ? undefined : joined.of(points.ground);
  const networkWith = (tuned: number): FaradsBetween[] =>
    capacities.map((each) => ({
      from: joined.of(each.from),
      to: joined.of(each.to),
      farads: each === tuner ? tuned : each.now,
    }));
  const across = (tuned: number) => capacityAcross(networkWith(tuned), held, rest);
  const [low, high] = tuner?.range ?? [tuner?.now ?? 0, tuner?.now ?? 0];
  const least = across(low);
  const most = high === low ? least : across(high);
  const { volts } = least;
  const voltsOf = (point: number) => volts.get(joined.of(point)) ?? 0;
  return {
    least: least.farads,
    most: most.farads,
    without: tuner ? across(0).farads : least.farads,
    others: capacities.filter(
      (each) =>
        each !== tuner &&
        each.now * (voltsOf(each.from) - voltsOf(each.to)) ** 2 > TRACE * least.farads,
    ),
    loads: loadsOf(capacities, lossers, loads, voltsOf),
  };
}

/** Every piece of the windings a tank is made of, beyond its taps too. */
function ownEdges(all: Tanks, tank: Tank, own: ReadonlySet<string>): InductiveEdge[] {
  const found = new Set<InductiveEdge>();
  const waiting = tank.path.flatMap(({ edge }) => [edge.from, edge.to]);
  const seen = new Set<number>();
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    if (seen.has(here)) continue;
    seen.add(here);
    for (const { each } of all.at.edges.get(here) ?? []) {
      if (!own.has(each.part)) continue;
      found.add(each);
      waiting.push(each.from, each.to);
    }
  }
  return [...found];
}

/** Shares of the tank's voltage at every terminal of the windings it is made of. */
function sharesAlong(tank: Tank, edges: readonly InductiveEdge[]): ReadonlyMap<number, number> {
  const drop = (edge: InductiveEdge): number => {
    let sum = 0;
    for (const step of tank.path) sum += step.sign * (mutualOf(edge, step.edge) ?? 0);
    return sum;
  };
  let whole = 0;
  for (const { edge, sign } of tank.path) whole += sign * drop(edge);
  const shares = new Map<number, number>([
    [tank.low, 0],
    [tank.high, 1],
  ]);
  if (!(whole > 0)) return shares;
  let here = tank.high;
  let volts = 1;
  for (const { edge, sign } of tank.path) {
    here = edge.from === here ? edge.to : edge.from;
    volts -= (sign * drop(edge)) / whole;
    if (here !== tank.low) shares.set(here, volts);
  }
  // Beyond a tap the winding goes on, with what the field induces in it.
  for (let found = true; found; ) {
    found = false;
    for (const edge of edges) {
      const from = shares.get(edge.from);
      const to = shares.get(edge.to);
      if ((from === undefined) === (to === undefined)) continue;
      const across = drop(edge) / whole;
      if (from !== undefined) shares.set(edge.to, from - across);
      else if (to !== undefined) shares.set(edge.from, to + across);
      found = true;
    }
  }
  return shares;
}

/** A resistance with less of the tank's voltage across it damps nothing. */
const LEAST_SHARE = 0.05;

function loadsOf(
  capacities: readonly Capacity[],
  lossers: readonly Resistance[],
  loads: readonly Resistance[],
  voltsOf: (point: number) => number,
): readonly TankLoad[] {
  const found: TankLoad[] = [];
  for (const { part, ohms, near, far } of lossers) {
    const share = voltsOf(near);
    if (share === 0) continue;
    // Whichever side has fewer farads of tubes is the one that the resistance feeds.
    const farads = Math.min(tubeFarads(capacities, near), tubeFarads(capacities, far));
    const behind = farads > 0 ? farads : tubeFarads(capacities, far) + tubeFarads(capacities, near);
    if (behind > 0) found.push({ part, siemens: 0, perSquare: ohms * (behind * share) ** 2 });
  }
  for (const { part, ohms, near, far } of loads) {
    const across = voltsOf(near) - voltsOf(far);
    if (Math.abs(across) > LEAST_SHARE)
      found.push({ part, siemens: (across * across) / ohms, perSquare: 0 });
  }
  return found;
}

function tubeFarads(capacities: readonly Capacity[], point: number): number {
  let sum = 0;
  for (const { what, from, to, now } of capacities)
    if (what === 'tube' && (from === point || to === point)) sum += now;
  return sum;
}
