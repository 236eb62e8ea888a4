import type { End, Part } from '@setwright/circuit';
import type { Cell, Paper } from '../cell.ts';
import type { Led } from '../contacts.ts';
import { naturally } from '../natural-order.ts';
import { type Rails, railName } from '../rails.ts';
import { shortened, textWidth } from '../text-width.ts';

/** What the drawing of windings needs to know of the rest of the set. */
export interface CoilContext {
  readonly paper: Paper;
  readonly rails: Rails;
  /** Rank of a junction along the signal path. */
  readonly rank: (net: number) => number;
  /** Height at which a junction runs: 0 for grids, -40 for plates. */
  readonly level: (net: number) => number;
  readonly onGrid: (net: number) => boolean;
  readonly onPlate: (net: number) => boolean;
  /** Whether a junction is a plate's, or a switch leads there from one. */
  readonly fromPlate: (net: number) => boolean;
  /** Whether a condenser or resistance leads from a junction to a grid. */
  readonly nearGrid: (net: number) => boolean;
  /** The first tube whose grid or plate is on a junction. */
  readonly tubeOn: (net: number) => string | undefined;
  /** Whether all on a junction but what belongs to a coil is reached before a rank. */
  readonly isBefore: (net: number, coil: string, rank: number) => boolean;
  /** The jack or selector whose contact is all that an end is joined to. */
  readonly heldBy: (end: End) => string | undefined;
  /** The spring or stud that an end is led to by a wire. */
  readonly ledBy: (end: End) => Led | undefined;
  /** Posts that stand in the lead of an end. */
  readonly postsAt: (end: End) => readonly string[];
}

export const startAndFinish = (part: Part): [End | undefined, End | undefined] => [
  part.ends.find(({ name }) => name === 'start'),
  part.ends.find(({ name }) => name === 'finish'),
];

/** The end of a winding that belongs at the top. */
export function hotEnd(cx: CoilContext, part: Part): 'start' | 'finish' {
  const [start, finish] = startAndFinish(part);
  const weight = (end: End | undefined): number => {
    if (!end) return 0;
    const role = cx.rails.roleOf(end.junction);
    if (role === 'high') return cx.rails.heightOf(end.junction);
    if (role === 'signal') return cx.onGrid(end.junction) ? 3 : cx.nearGrid(end.junction) ? 2.5 : 2;
    return role === 'alone' ? 1 : cx.rails.heightOf(end.junction) / 10;
  };
  return weight(finish) > weight(start) ? 'finish' : 'start';
}

/** The end of a winding between two signal junctions that the signal leaves by. */
export function laterEnd(cx: CoilContext, part: Part): 'start' | 'finish' {
  const [start, finish] = startAndFinish(part);
  const rank = (end: End | undefined): number =>
    end ? cx.rank(end.junction) : Number.POSITIVE_INFINITY;
  return rank(start) < rank(finish) ? 'finish' : 'start';
}

/** Of the two ends of a winding between tubes in push-pull the one whose tube stands above. */
export function upperOfTwo(cx: CoilContext, part: Part): 'start' | 'finish' {
  const [start, finish] = startAndFinish(part).map((end) => (end && cx.tubeOn(end.junction)) ?? '');
  return naturally(finish ?? '', start ?? '') < 0 ? 'finish' : 'start';
}

/**
 * How far from its middle the name of a symbol above or below a winding reaches, a little air
 * included; 0 where there is none.
 */
export function nameReach(
  { paper, rails }: CoilContext,
  cell: Cell,
  end: End | undefined,
  up: boolean,
): number {
  if (!end || !['low', 'high'].includes(rails.roleOf(end.junction))) return 0;
  if (paper.toBus(cell.id, end.junction, up)) return 0;
  return Math.ceil(textWidth(shortened(railName(paper.nameOf(end.junction))), 'rail') / 2) + 7;
}
