import type { End, Part } from '@setwright/circuit';
import { addMark, type Cell, endOf, type Paper, place, wire } from '../cell.ts';
import { twoEndedSymbol } from '../part-words.ts';
import type { Rails } from '../rails.ts';
import { symbolShape } from '../symbols.ts';
import { textWidth } from '../text-width.ts';
import type { CoilContext } from './coil-context.ts';
import { postInLead } from './posts.ts';
import { uprightPart } from './upright.ts';

/** A winding as it will stand: which end is up, and how many loops it shows. */
export interface Standing {
  readonly part: Part;
  readonly upper: End | undefined;
  readonly lower: End | undefined;
  readonly loops: number;
  /** Where its first loop begins. */
  readonly top: number;
  /** Length of the leads above and below it. */
  readonly lead: number;
}

/** A winding of the usual size begins here, so that its upper lead reaches level 0. */
const usualTop = 10;

export function standing(
  part: Part,
  upper: 'start' | 'finish',
  { top = usualTop, loops = loopsOf(part), lead = 10 } = {},
): Standing {
  const lower = upper === 'start' ? 'finish' : 'start';
  return { part, upper: endOf(part, upper), lower: endOf(part, lower), loops, top, lead };
}

const loopsOf = (part: Part): number =>
  part.taps.length > 2 ? Math.min(30, part.taps.length * 3) : 6;

export const bottomOf = (winding: Standing): number => winding.top + winding.loops * 10;

/** The heights at which the leads of a winding turn to the side. */
export const leadsOf = (winding: Standing): { readonly upper: number; readonly lower: number } => ({
  upper: winding.top - winding.lead,
  lower: bottomOf(winding) + winding.lead,
});

/** The loops between which each tap leaves, counted from above; no two at one place. */
export function tapPorts(winding: Standing): { end: End; port: string; y: number }[] {
  const { part, loops, upper, top } = winding;
  const taken = new Set<number>();
  const taps = [...part.taps].sort((a, b) => (a.fraction ?? 0.5) - (b.fraction ?? 0.5));
  return taps.flatMap((tap) => {
    const end = endOf(part, tap.end);
    if (!end) return [];
    const fraction = upper?.name === 'start' ? (tap.fraction ?? 0.5) : 1 - (tap.fraction ?? 0.5);
    const wanted = Math.min(loops - 1, Math.max(1, Math.round(fraction * loops)));
    // Two loops apart, so that there is room for what a tap's symbol says; else wherever is room.
    const vertices = Array.from({ length: Math.max(0, loops - 1) }, (_, at) => at + 1).sort(
      (a, b) => Math.abs(a - wanted) - Math.abs(b - wanted) || a - b,
    );
    const apart = (least: number) =>
      vertices.find((each) => [...taken].every((other) => Math.abs(each - other) >= least));
    const vertex = apart(2) ?? apart(1) ?? wanted;
    taken.add(vertex);
    return [{ end, port: `t${vertex}`, y: top + vertex * 10 }];
  });
}

/** Sets down the winding itself. */
export function placeWinding(
  cell: Cell,
  winding: Standing,
  x: number,
  facing: 'left' | 'right',
): void {
  const { part, upper, lower, loops, top } = winding;
  const taps = tapPorts(winding);
  place(
    cell,
    part.name,
    part.kind === 'loop' && taps.length === 0 ? 'loop' : `winding-${loops}-${facing}`,
    { x, y: top + loops * 5 },
    { a: upper, b: lower, ...Object.fromEntries(taps.map(({ end, port }) => [port, end])) },
  );
}

/** How the taps of a winding leave it. */
export interface TapWays {
  readonly paper: Paper;
  readonly rails: Rails;
  /** Taps that are drawn elsewhere, by the full name of their end. */
  readonly elsewhere: ReadonlySet<string>;
  /** Whether all else on a tap's junction lies before this winding. */
  readonly leadsBack: (net: number) => boolean;
  /** How far to the west a lead goes that leads back; none where nothing stands at the west. */
  readonly west: number | undefined;
  /** Whether nothing stands at the east of the winding. */
  readonly clear: boolean;
  /** How far to the west the name of a rail below the winding reaches. */
  readonly beside: number;
}

/** The taps' leads: rails to their symbols, signals round below to the side that they lead to. */
export function drawTaps(cell: Cell, winding: Standing, x: number, ways: TapWays): void {
  const { paper, rails, elsewhere, leadsBack, west, clear } = ways;
  const low = leadsOf(winding).lower;
  // A lead that goes back comes in at the height of what bridges the tube before.
  let [row, deep] = [low + 10, low + 50];
  let column = x - Math.max(12, ways.beside);
  for (const { end, y } of tapPorts(winding)) {
    const role = rails.roleOf(end.junction);
    if (elsewhere.has(end.id) || role === 'alone') continue;
    if (role !== 'signal') {
      wire(cell, end.junction, x, y, x - 12, y);
      addMark(paper, cell, end.junction, { x: x - 12, y }, 'bar-left');
      continue;
    }
    const back = leadsBack(end.junction);
    if (clear && !back) {
      cell.ports.push({ net: end.junction, side: 'east', from: { x, y } });
      continue;
    }
    if (back && west === undefined) {
      wire(cell, end.junction, x, y, x - 12, y);
      cell.ports.push({ net: end.junction, side: 'west', from: { x: x - 12, y } });
      continue;
    }
    const [to, level] = back && west !== undefined ? [west, deep] : [x + 20, row];
    wire(cell, end.junction, x, y, column, y, column, level, to, level);
    cell.ports.push({
      net: end.junction,
      side: back ? 'west' : 'east',
      from: { x: to, y: level },
    });
    if (back) deep += 10;
    else row += 10;
    column -= 10;
  }
}

/** Parts across a winding, upright beside it, between its two leads. Returns the last place. */
export function drawBeside(
  { postsAt }: Pick<CoilContext, 'postsAt'>,
  cell: Cell,
  winding: Standing,
  x: number,
  parts: readonly Part[],
  side: 'west' | 'east' = 'east',
): number {
  const { upper, lower } = winding;
  if (!upper || !lower) return x;
  const leads = leadsOf(winding);
  const from = Math.round((leads.upper + leads.lower) / 20) * 10 - 20;
  const isEast = side === 'east';
  // Where the thing before ends: the winding itself, or the words of the part before.
  let edge = isEast ? x + 18 : westOf(cell, x - 8, leads);
  let at = x;
  for (const part of parts) {
    const up = part.ends.find((end) => end.junction === upper.junction);
    const down = part.ends.find((end) => end.junction === lower.junction);
    const { left: symbolLeft, right } = symbolShape(twoEndedSymbol(part)).box;
    const posts = [up, down].map((end) => (end ? postsAt(end) : []));
    // The name of a post stands at its left.
    const left = Math.min(symbolLeft, ...posts.flat().map((name) => -12 - textWidth(name, 'rail')));
    const next = isEast
      ? Math.ceil((edge + 8 - left) / 10) * 10
      : Math.floor((edge - 8 - right) / 10) * 10;
    wire(cell, upper.junction, at, leads.upper, next, leads.upper);
    leadDown(cell, upper.junction, next, leads.upper, from, posts[0] ?? []);
    uprightPart(cell, part, next, from, up, down, isEast ? 'right' : 'left');
    leadDown(cell, lower.junction, next, from + 40, leads.lower, posts[1] ?? []);
    wire(cell, lower.junction, at, leads.lower, next, leads.lower);
    at = next;
    const words = cell.labels.filter((label) => label.part === part.name).map(({ box }) => box);
    edge = isEast
      ? Math.max(...words.map((box) => box.right))
      : Math.min(...words.map((box) => box.left));
  }
  return at;
}

/** An upright lead with the posts that stand in it, spread over its length. */
function leadDown(
  cell: Cell,
  net: number,
  x: number,
  top: number,
  bottom: number,
  posts: readonly string[],
): void {
  let y = top;
  for (const [index, name] of posts.entries()) {
    const next = top + Math.round(((bottom - top) * (index + 1)) / (posts.length + 1));
    wire(cell, net, x, y, x, next);
    postInLead(cell, name, x, next);
    y = next;
  }
  wire(cell, net, x, y, x, bottom);
}

/** How far to the west anything stands between two heights, at least as far as a place. */
function westOf(
  { labels, marks, wires }: Cell,
  x: number,
  { upper, lower }: { readonly upper: number; readonly lower: number },
): number {
  const boxes = [...labels, ...marks].map(({ box }) => box);
  const lefts = [
    ...boxes.filter(({ top, bottom }) => bottom > upper && top < lower).map(({ left }) => left),
    ...wires
      .flatMap(({ points }) => points.filter(({ y }) => y > upper && y < lower))
      .map((at) => at.x),
  ];
  return Math.min(x, ...lefts);
}
