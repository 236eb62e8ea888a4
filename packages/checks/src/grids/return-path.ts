import type { Conduction, JoinedBranch, Step } from '@setwright/circuit';
import { directPath, supposedOhms } from '@setwright/circuit';
import type { Rail, Rails } from '../supplies/rails.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import type { Bridge } from '../wiring/regions.ts';
import { emittersOf } from './floating-grid.ts';

/** Where a way of direct current from an electrode ends. */
export interface ReturnEnd {
  readonly junction: number;
  /**
   * What holds it there, one entry for each; undefined where it ends on the tube's own filament
   * or cathode and nothing else holds that.
   */
  readonly rail: Rail | undefined;
}

/** A branch that a return may lead through: no supply, no tube. */
export function passesReturn(conduction: Conduction): (branch: JoinedBranch) => boolean {
  return ({ part, direct }) =>
    direct.kind === 'conducts' && conduction.circuit.partNamed.get(part)?.kind !== 'tube';
}

/**
 * Every rail, and every end of the tube's own filament or cathode, that direct current comes to
 * from a junction without passing another on the way. Linear in what lies between.
 */
export function returnEnds(
  conduction: Conduction,
  rails: Rails,
  tube: TubeAt,
  from: number,
  options: {
    readonly skip?: (branch: JoinedBranch) => boolean;
    readonly bridges?: readonly Bridge[];
  } = {},
): readonly ReturnEnd[] {
  const passes = passesReturn(conduction);
  const own = new Set(emittersOf(tube).map((end) => end.junction));
  const found: ReturnEnd[] = [];
  const seen = new Set([from]);
  for (const here of seen) {
    const held = rails.at.get(here);
    if (held || own.has(here)) {
      for (const rail of held ?? [undefined]) found.push({ junction: here, rail });
      continue;
    }
    for (const branch of conduction.at[here] ?? []) {
      if (!passes(branch) || options.skip?.(branch)) continue;
      seen.add(branch.fromJunction === here ? branch.toJunction : branch.fromJunction);
    }
    for (const [a, b] of options.bridges ?? []) {
      if (a === here) seen.add(b);
      if (b === here) seen.add(a);
    }
  }
  return found;
}

/** Ohms of a path, with a usual value for what the text does not say. */
export function ohmsOf(conduction: Conduction, steps: readonly Step[]): number {
  let sum = 0;
  for (const { part, from, to, direct } of steps) {
    if (direct.kind === 'blocks') continue;
    sum += direct.ohms ?? supposedOhms(conduction.circuit, { part, from, to, direct }).ohms;
  }
  return sum;
}

/** The way of fewest ohms from one junction to another, through no supply and no tube. */
export function wayTo(
  conduction: Conduction,
  from: number,
  to: number,
  skip?: (branch: JoinedBranch) => boolean,
): readonly Step[] {
  const passes = passesReturn(conduction);
  const path = directPath(conduction, from, (junction) => junction === to, {
    prefer: 'ohms',
    throughSources: false,
    passes: (branch) => passes(branch) && !skip?.(branch),
  });
  return path.found ? path.steps : [];
}
