import type { Part } from '@setwright/circuit';
import type { Amount } from './edit.ts';
import { junctionOf, replace, type Workbench } from './workbench.ts';

/** Turns of a usual audio primary, and of a secondary before its ratio is known. From memory. */
const USUAL_PRIMARY_TURNS = 4000;
const USUAL_RATIO = 3;

/** Shares of a winding that are less apart than this are one place. */
const SAME_TURN = 1e-6;

/**
 * `turns N shorted in P`: the last N turns before its finish lie on one point. They go on turning
 * in the field of the others, and that is what costs.
 */
export function shortTurns(bench: Workbench, target: string, amount: Amount | undefined): void {
  const part = bench.parts.get(target);
  const owner = bench.parts.get(part?.owner ?? '');
  const turns = part ? turnsOf(part, owner) : 1;
  const share = (amount?.value ?? 1) / turns;
  const finish = part?.ends.find(({ name }) => name === 'finish');
  const junction = finish && junctionOf(bench, finish.id);
  if (part?.kind !== 'winding' || junction === undefined || !(share > 0 && share < 1)) {
    bench.refused.push(`${target} has no such number of turns to be shorted`);
    return;
  }
  const end = { name: 'shorted', id: `${part.name}.shorted`, junction, joins: [] };
  // Where a tap stands at that very turn, the short begins half a turn beyond it.
  const isTapped = part.taps.some((tap) => Math.abs((tap.fraction ?? 0) - (1 - share)) < SAME_TURN);
  const fraction = 1 - share + (isTapped ? 0.5 / turns : 0);
  replace(bench, {
    ...part,
    ends: [...part.ends, end],
    taps: [...part.taps, { end: 'shorted', fraction, turns: undefined, place: part.place }],
  });
}

/** Turns of a winding, as told, else as usual for one on iron. */
export function turnsOf(part: Part, owner: Part | undefined): number {
  const said = part.values.turns?.value ?? part.winding?.turns?.value;
  if (said !== undefined && said > 0) return said;
  const ratio = owner?.values.ratio?.value ?? USUAL_RATIO;
  return part.name.endsWith('.secondary') ? USUAL_PRIMARY_TURNS * ratio : USUAL_PRIMARY_TURNS;
}
