import type { End, Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, linePitch } from '../cell.ts';
import { ratioText, windingText } from '../part-words.ts';
import { railName } from '../rails.ts';
import type { Label } from '../scene.ts';
import { shortened, textWidth } from '../text-width.ts';
import { type CoilContext, hotEnd, nameReach, startAndFinish, upperOfTwo } from './coil-context.ts';
import { drawPrimary, type Size } from './primary.ts';
import { drawTuned } from './secondary.ts';
import { studsOf } from './selector.ts';
import { bottomOf, leadsOf, type Standing, standing } from './windings.ts';

/** A coil or transformer, and which of its windings hand the signal on. */
export interface CoilPair {
  readonly owner: Part;
  readonly primary: Part;
  readonly secondary: Part;
  /** Parts across each winding. */
  readonly acrossPrimary: readonly Part[];
  readonly acrossSecondary: readonly Part[];
  /** A selector whose studs are all on the primary. */
  readonly selector: Part | undefined;
  /** A selector whose studs are all on the secondary. */
  readonly secondSelector: Part | undefined;
}

/** Two tubes in push-pull stand this far one below the other. */
const apart = 150;
/** Windings between two grids of a push-pull pair, and between its two plates. */
const betweenGrids: Size = { top: 15, loops: (apart - 30) / 10, lead: 15 };
export const betweenPlates: Size = { ...betweenGrids, top: betweenGrids.top - 40 };

/** Two coupled windings, the driven one at the east with whatever tunes it beside it. */
export function pairCell(cx: CoilContext, pair: CoilPair): Cell {
  const { owner, primary, secondary, acrossPrimary, acrossSecondary, selector } = pair;
  const { secondSelector } = pair;
  const cell = emptyCell(owner.name, 'coil');
  const size = sizeOf(cx, primary, secondary);
  const first = drawPrimary(cx, cell, primary, acrossPrimary, selector, size);
  const upper = size ? upperOfTwo(cx, secondary) : hotEnd(cx, secondary);
  const second = standing(secondary, upper, size);
  const forTaps = secondSelector ? 0 : roomForTaps(cx, secondary);
  const x = Math.max(50 + forTaps, roomForNames(cx, cell, [first, second]));
  drawTuned(cx, cell, second, acrossSecondary, {
    x,
    west: -20,
    through: false,
    leadsBack: (net) => leadsBack(cx, net, pair),
    selectors: secondSelector ? [{ part: secondSelector, side: 'east' }] : [],
  });
  const iron = owner.kind === 'transformer' && !owner.words.has('air');
  if (iron) drawCore(cell, Math.min(25, x / 2), first, second);
  else if (isMovable(primary) || isMovable(secondary)) drawCoupling(cell, x, first, second);
  if (!iron || primary.winding?.reversed || secondary.winding?.reversed) {
    drawSense(cell, first, () => 11);
    // Where taps leave to the west the dot stands at the east.
    drawSense(cell, second, () => (secondary.taps.length > 0 && !secondSelector ? x + 8 : x - 11));
  }
  nameOver(cell, owner, iron ? ratioText(owner) : undefined, x, first, second);
  return cell;
}

/** Name and ratio above the windings: between their leads, or to the right of what is there. */
function nameOver(
  cell: Cell,
  owner: Part,
  ratio: string | undefined,
  x: number,
  first: Standing,
  second: Standing,
): void {
  const top = Math.min(first.top, second.top);
  const bottom = Math.max(bottomOf(first), bottomOf(second));
  const y = top - (ratio ? 41 : 28);
  const lines = (at: number, anchor: 'start' | 'middle', from: number): Label[] => [
    labelAt(owner.name, 'name', at, from, anchor, owner.name),
    ...(ratio ? [labelAt(ratio, 'value', at, from + linePitch, anchor, owner.name)] : []),
  ];
  const words = [...cell.labels, ...cell.marks].map(({ box }) => box);
  const isClear = (label: Label): boolean =>
    label.box.right - label.box.left < x - 10 &&
    words.every(
      (other) =>
        other.right < label.box.left - 5 ||
        other.left > label.box.right + 5 ||
        other.bottom < label.box.top ||
        other.top > label.box.bottom,
    );
  const right = Math.max(0, ...words.filter((box) => box.top < top).map((box) => box.right));
  const choices = [lines(x / 2, 'middle', y), lines(x / 2, 'middle', bottom + 4)];
  cell.labels.push(
    ...(choices.find((choice) => choice.every(isClear)) ?? lines(right + 8, 'start', y)),
  );
}

/** Both windings tall enough for two tubes one below the other, where they work in push-pull. */
function sizeOf(cx: CoilContext, primary: Part, secondary: Part): Size | undefined {
  const ends = (part: Part) => startAndFinish(part).flatMap((end) => (end ? [end] : []));
  const isSignal = ({ junction }: End): boolean => cx.rails.roleOf(junction) === 'signal';
  const both = (part: Part, holds: (net: number) => boolean): boolean => {
    const its = ends(part);
    return its.length === 2 && its.every((end) => isSignal(end) && holds(end.junction));
  };
  const [one, other] = ends(secondary);
  if (both(secondary, cx.onGrid) && one?.junction !== other?.junction) return betweenGrids;
  const [start, finish] = ends(primary);
  if (both(primary, cx.onPlate) && start?.junction !== finish?.junction) return betweenPlates;
  return undefined;
}

/** What the taps of a secondary need between the windings: their leads, or the name of a rail. */
function roomForTaps({ rails, paper }: CoilContext, part: Part): number {
  const rooms = part.taps.map(({ end: tap }) => {
    const end = part.ends.find(({ name }) => name === tap);
    const role = end ? rails.roleOf(end.junction) : 'alone';
    if (!end || role === 'alone') return 0;
    if (role === 'signal') return 20;
    const name = shortened(railName(paper.nameOf(end.junction)));
    return Math.max(50, Math.ceil(textWidth(name, 'rail') / 10) * 10);
  });
  return Math.max(0, ...rooms);
}

/**
 * How far apart two windings stand so that the name of a rail at one does not reach the leads of the
 * other.
 */
function roomForNames(cx: CoilContext, cell: Cell, windings: readonly Standing[]): number {
  const reaches = windings.flatMap(({ upper, lower }) => [
    nameReach(cx, cell, upper, true),
    nameReach(cx, cell, lower, false),
  ]);
  return Math.ceil(Math.max(...reaches) / 10) * 10;
}

/** Whether all that is on a tap's junction lies before this pair. */
function leadsBack(cx: CoilContext, net: number, { owner, primary, secondary }: CoilPair): boolean {
  return cx.isBefore(net, owner.name, firstRank(cx, [primary, secondary]));
}

/** The first rank at which the signal reaches an end of some windings, taps left aside. */
function firstRank(cx: CoilContext, windings: readonly Part[]): number {
  const own = windings.flatMap(startAndFinish).flatMap((end) => end?.junction ?? []);
  const signals = own.filter((each) => cx.rails.roleOf(each) === 'signal');
  return Math.min(...signals.map(cx.rank));
}

const isMovable = (part: Part): boolean =>
  part.setting !== undefined || part.winding?.inside !== undefined;

export function drawCore(cell: Cell, x: number, first: Standing, second: Standing): void {
  const from = Math.min(first.top, second.top);
  const to = Math.max(bottomOf(first), bottomOf(second));
  for (const line of [x - 4, x, x + 4]) {
    cell.ornaments.push({
      kind: 'outline',
      points: [
        { x: line, y: from },
        { x: line, y: to },
      ],
    });
  }
}

/** The arrow across two windings whose coupling can be changed. */
function drawCoupling(cell: Cell, x: number, first: Standing, second: Standing): void {
  const points = [
    { x: x / 2 - 18, y: Math.max(bottomOf(first), bottomOf(second)) },
    { x: x / 2 + 18, y: Math.min(first.top, second.top) + 4 },
  ];
  cell.ornaments.push({ kind: 'arrow', points });
}

/** A dot beside the end of a winding at which the turns of all run the same way. */
function drawSense(cell: Cell, winding: Standing, xAt: (atTop: boolean) => number): void {
  const startIsUp = winding.upper?.name === 'start';
  const atTop = startIsUp !== (winding.part.winding?.reversed ?? false);
  const dot = { x: xAt(atTop), y: atTop ? winding.top + 2 : bottomOf(winding) - 2 };
  cell.ornaments.push({ kind: 'sense', points: [dot, dot] });
}

/** A winding on its own, a tickler, a loop or a tapped choke among them. */
export function loneWindingCell(
  cx: CoilContext,
  part: Part,
  beside: readonly Part[],
  hasSense: boolean,
  posts: readonly string[] = [],
  selectors: readonly Part[] = [],
): Cell {
  const cell = emptyCell(part.name, 'winding');
  const [start, finish] = startAndFinish(part);
  const role = (end: End | undefined) => (end ? cx.rails.roleOf(end.junction) : 'alone');
  const onPlate = (end: End | undefined) =>
    end !== undefined && role(end) === 'signal' && cx.onPlate(end.junction);
  // Posts stand in the lead below, on the cold end of a loop.
  const isFree = posts.length === 0;
  const upper =
    isFree && onPlate(finish) ? 'start' : isFree && onPlate(start) ? 'finish' : hotEnd(cx, part);
  const stands = standSelectors(cx, part, selectors);
  // The wire of an arm passes above the winding.
  const passes = stands.some(({ through }) => through !== undefined);
  const winding = standing(part, upper, passes ? { top: 30 } : {});
  drawTuned(cx, cell, winding, beside, {
    x: 0,
    west: undefined,
    through: role(winding.upper) === 'signal' && role(winding.lower) !== 'signal',
    leadsBack: (net) => cx.isBefore(net, part.owner ?? part.name, firstRank(cx, [part])),
    posts,
    selectors: stands,
  });
  if (part.kind === 'choke' && !part.words.has('air')) drawCore(cell, 12, winding, winding);
  const text = part.kind === 'loop' ? part.values.inductance?.text : windingText(part);
  const left = part.kind === 'loop' ? -28 : -16;
  const bottom = bottomOf(winding);
  if (isMovable(part)) {
    const points = [
      { x: -14, y: bottom - 4 },
      { x: 14, y: winding.top + 4 },
    ];
    cell.ornaments.push({ kind: 'arrow', points });
  }
  // The arrow begins below at the left.
  if (hasSense) drawSense(cell, winding, (atTop) => (atTop || !isMovable(part) ? -11 : 8));
  if (selectors.length > 0) {
    // At the side without studs where nothing else leads there, else above all that is there.
    const isFree = passes && beside.length === 0;
    const tops = [...cell.marks, ...cell.labels]
      .map(({ box }) => box)
      .filter(({ left, right, bottom: low }) => left < 50 && right > -50 && low <= winding.top)
      .map(({ top }) => top - 33);
    const above = Math.min(winding.top - (passes ? 66 : 46), ...tops);
    const y = isFree ? (winding.top + bottom) / 2 - 14 : above;
    const [at, anchor] = isFree ? ([12, 'start'] as const) : ([0, 'middle'] as const);
    cell.labels.push(labelAt(part.name, 'name', at, y, anchor, part.name));
    if (text) cell.labels.push(labelAt(text, 'value', at, y + linePitch, anchor, part.name));
    return cell;
  }
  // Taps leave to the west: the words then stand below them.
  const tapped = part.taps.length > 0;
  const y = tapped ? leadsOf(winding).lower - 6 : (winding.top + bottom) / 2 - 14;
  const x = tapped ? -18 - 10 * part.taps.length : left - (isMovable(part) ? 4 : 0);
  cell.labels.push(labelAt(part.name, 'name', x, y, 'end', part.name));
  if (text) cell.labels.push(labelAt(text, 'value', x, y + linePitch, 'end', part.name));
  return cell;
}

/**
 * How the selectors of a winding stand: the one that the signal comes by at the west, another at the
 * east. Where no lead of the winding itself goes on, the wire of the only arm does.
 */
function standSelectors(
  cx: CoilContext,
  part: Part,
  selectors: readonly Part[],
): NonNullable<Parameters<typeof drawTuned>[4]['selectors']> {
  const armRank = (selector: Part): number =>
    Math.min(...selector.ends.map(({ junction }) => cx.rank(junction)));
  const sorted = [...selectors].sort((a, b) => armRank(a) - armRank(b));
  const studs = new Set(sorted.flatMap((each) => [...studsOf(each)]));
  const goesOn = startAndFinish(part).some(
    (end) => end && !studs.has(end.id) && cx.rails.roleOf(end.junction) === 'signal',
  );
  return sorted.map((selector, index) => ({
    part: selector,
    side: index === 0 ? 'west' : 'east',
    ...(sorted.length === 1 && !goesOn ? { through: 20 } : {}),
  }));
}
