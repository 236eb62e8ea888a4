import type { End, Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, linePitch, type Paper, toRail, wire } from '../cell.ts';
import { windingText } from '../part-words.ts';
import type { Rails } from '../rails.ts';
import {
  bottomOf,
  drawBeside,
  drawSelector,
  drawWinding,
  type Standing,
  standing,
  top,
} from './windings.ts';

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
  /** Whether a condenser or resistance leads from a junction to a grid. */
  readonly nearGrid: (net: number) => boolean;
  /** The jack or selector whose contact is all that an end is joined to. */
  readonly heldBy: (end: End) => string | undefined;
}

const ends = (part: Part): [End | undefined, End | undefined] => [
  part.ends.find(({ name }) => name === 'start'),
  part.ends.find(({ name }) => name === 'finish'),
];

/** Two coupled windings, the driven one at the east with whatever tunes it beside it. */
export function pairCell(
  cx: CoilContext,
  owner: Part,
  primary: Part,
  secondary: Part,
  beside: readonly Part[],
  selector: Part | undefined,
): Cell {
  const cell = emptyCell(owner.name, 'coil');
  drawPrimary(cx, cell, primary, selector);
  const second = standing(secondary, hotEnd(cx, secondary));
  const tapped = secondary.taps.some(({ end }) => {
    const net = secondary.ends.find(({ name }) => name === end)?.junction;
    return net !== undefined && cx.rails.roleOf(net) !== 'alone';
  });
  const railTap = secondary.taps.some(({ end }) => {
    const net = secondary.ends.find(({ name }) => name === end)?.junction;
    return net !== undefined && ['low', 'high'].includes(cx.rails.roleOf(net));
  });
  // The tap's name needs room between the windings.
  const x = railTap ? 100 : tapped ? 70 : 50;
  drawTuned(cx, cell, second, x, beside, tapped, false);
  const iron = owner.kind === 'transformer' && !owner.words.has('air');
  const low = Math.max(...cell.symbols.filter(isWinding).map(({ box }) => box.bottom));
  if (iron) {
    for (const line of [21, 25, 29]) {
      cell.ornaments.push({
        kind: 'outline',
        points: [
          { x: line, y: top },
          { x: line, y: low },
        ],
      });
    }
  }
  cell.labels.push(labelAt(owner.name, 'name', 12, -37, 'start', owner.name));
  const words = iron ? owner.values.ratio?.text : undefined;
  if (words) cell.labels.push(labelAt(words, 'value', 12, -23, 'start', owner.name));
  return cell;
}

const isWinding = ({ symbol }: { readonly symbol: string }): boolean =>
  symbol.startsWith('winding') || symbol === 'loop';

/** The end of a winding that belongs at the top. */
function hotEnd(cx: CoilContext, part: Part): 'start' | 'finish' {
  const [start, finish] = ends(part);
  const weight = (end: End | undefined): number => {
    if (!end) return 0;
    const role = cx.rails.roleOf(end.junction);
    if (role === 'high') return 4;
    if (role === 'signal') return cx.onGrid(end.junction) ? 3 : cx.nearGrid(end.junction) ? 2.5 : 2;
    return role === 'alone' ? 1 : 0;
  };
  return weight(finish) > weight(start) ? 'finish' : 'start';
}

function drawPrimary(cx: CoilContext, cell: Cell, part: Part, selector: Part | undefined): void {
  const { paper, rails } = cx;
  const [start, finish] = ends(part);
  const role = (end: End | undefined) => (end ? rails.roleOf(end.junction) : 'alone');
  const studs = new Set(selector?.contacts.flatMap(({ from, to }) => [from, to]));
  if (selector) {
    const upper = finish && studs.has(finish.id) ? 'finish' : 'start';
    const winding = standing(part, role(finish) === 'low' ? 'start' : upper);
    drawWinding(paper, rails, cell, winding, 0, 'right', studs);
    drawSelector(cell, rails, winding, selector, 0);
    for (const [end, y, up] of [
      [winding.upper, top, true],
      [winding.lower, bottomOf(winding), false],
    ] as const) {
      if (end && !studs.has(end.id)) leave(cx, cell, end, y, up, 0);
    }
    return;
  }
  const bothSignal = role(start) === 'signal' && role(finish) === 'signal';
  const pushPull =
    bothSignal && start && finish && cx.onPlate(start.junction) && cx.onPlate(finish.junction);
  const upper = pushPull ? 'start' : bothSignal ? laterEnd(cx, part) : hotEnd(cx, part);
  const winding = standing(part, upper);
  drawWinding(paper, rails, cell, winding, 0, 'right', studs);
  if (winding.upper) leave(cx, cell, winding.upper, top, true, 0, bothSignal && !pushPull);
  const { lower } = winding;
  if (!lower) return;
  const low = bottomOf(winding);
  if (role(lower) === 'signal' && !pushPull) {
    // The plate comes in below, so that the B supply can leave above.
    const level = cx.level(lower.junction);
    wire(cell, lower.junction, -20, level, -20, low + 20, 0, low + 20, 0, low);
    cell.ports.push({ net: lower.junction, side: 'west', from: { x: -20, y: level } });
  } else leave(cx, cell, lower, low, false, 0);
}

/** The end of a winding between two signal junctions that the signal leaves by. */
function laterEnd(cx: CoilContext, part: Part): 'start' | 'finish' {
  const [start, finish] = ends(part);
  const rank = (end: End | undefined): number =>
    end ? cx.rank(end.junction) : Number.POSITIVE_INFINITY;
  return rank(start) < rank(finish) ? 'finish' : 'start';
}

/** Leads an end of a primary away: to the west, or to the east over its neighbour. */
function leave(
  cx: CoilContext,
  cell: Cell,
  end: End,
  y: number,
  up: boolean,
  x: number,
  over = false,
): void {
  const role = cx.rails.roleOf(end.junction);
  const holder = cx.heldBy(end);
  if (role === 'alone' && holder !== undefined) {
    const tip = up ? y - 10 : y + 10;
    wire(cell, end.junction, x, y, x, tip, x - 8, tip);
    cell.labels.push(labelAt(holder, 'rail', x - 11, tip - 6, 'end', end.id));
    return;
  }
  if (role === 'alone') return;
  if (role !== 'signal') {
    toRail(cx.paper, cell, end.junction, { x, y }, up);
    return;
  }
  const level = !up ? y + 20 : over ? -40 : cx.level(end.junction);
  wire(cell, end.junction, x, y, x, level);
  cell.ports.push({ net: end.junction, side: over ? 'east' : 'west', from: { x, y: level } });
}

/** A winding with the parts across it beside it, its junctions leaving to the east. */
function drawTuned(
  cx: CoilContext,
  cell: Cell,
  winding: Standing,
  x: number,
  beside: readonly Part[],
  tapped: boolean,
  through: boolean,
): void {
  const { paper, rails } = cx;
  drawWinding(paper, rails, cell, winding, x, 'left', new Set());
  const last = drawBeside(cell, winding, x, beside);
  const bottom = bottomOf(winding);
  const { upper, lower } = winding;
  if (upper) {
    const net = upper.junction;
    const role = rails.roleOf(net);
    if (role === 'signal' || (role !== 'alone' && beside.length > 0)) wire(cell, net, x, top, x, 0);
    if (role === 'signal') {
      cell.ports.push({ net, side: 'east', from: { x: last, y: 0 } });
      if (through) cell.ports.push({ net, side: 'west', from: { x, y: 0 } });
    } else if (role !== 'alone') {
      toRail(paper, cell, net, { x, y: beside.length > 0 ? 0 : top }, true);
    }
  }
  if (!lower) return;
  const net = lower.junction;
  const role = rails.roleOf(net);
  if (role === 'alone') return;
  const low = role === 'signal' || !tapped ? bottom + 20 : bottom + 40;
  wire(cell, net, x, bottom, x, low);
  if (role === 'signal') cell.ports.push({ net, side: 'east', from: { x: last, y: bottom + 20 } });
  else toRail(paper, cell, net, { x, y: low });
}

/** A winding on its own, a tickler or a loop among them. */
export function loneWindingCell(cx: CoilContext, part: Part, beside: readonly Part[]): Cell {
  const cell = emptyCell(part.name);
  const [start, finish] = ends(part);
  const onPlate = (end: End | undefined) => end !== undefined && cx.onPlate(end.junction);
  const upper = onPlate(finish) ? 'start' : onPlate(start) ? 'finish' : hotEnd(cx, part);
  const winding = standing(part, upper);
  const role = (end: End | undefined) => (end ? cx.rails.roleOf(end.junction) : 'alone');
  const through = role(winding.upper) === 'signal' && role(winding.lower) !== 'signal';
  drawTuned(cx, cell, winding, 0, beside, part.taps.length > 0, through);
  const text = part.kind === 'loop' ? part.values.inductance?.text : windingText(part);
  const left = part.kind === 'loop' ? -28 : -16;
  const movable = part.setting !== undefined || part.winding?.inside !== undefined;
  const bottom = bottomOf(winding);
  if (movable) {
    cell.ornaments.push({
      kind: 'arrow',
      points: [
        { x: -14, y: bottom - 4 },
        { x: 14, y: top + 4 },
      ],
    });
  }
  // Taps leave to the west: the words then stand below them.
  const tapped = part.taps.length > 0;
  const y = tapped ? bottom + 4 : (top + bottom) / 2 - 14;
  const x = tapped ? -18 - 10 * part.taps.length : left - (movable ? 4 : 0);
  cell.labels.push(labelAt(part.name, 'name', x, y, 'end', part.name));
  if (text) cell.labels.push(labelAt(text, 'value', x, y + linePitch, 'end', part.name));
  return cell;
}
