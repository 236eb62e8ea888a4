import type { End, Part } from '@setwright/circuit';
import { type Cell, labelAt, toRail, wire } from '../cell.ts';
import type { Led } from '../contacts.ts';
import {
  type CoilContext,
  hotEnd,
  laterEnd,
  nameReach,
  startAndFinish,
  upperOfTwo,
} from './coil-context.ts';
import { drawSelector, studsOf } from './selector.ts';
import {
  bottomOf,
  drawBeside,
  drawTaps,
  leadsOf,
  placeWinding,
  type Standing,
  standing,
} from './windings.ts';

/** How tall a winding stands, where it is not of the usual size. */
export interface Size {
  readonly top: number;
  readonly loops: number;
  readonly lead: number;
}

/** A winding that hands the signal on, at the west of its cell; where it stands. */
export function drawPrimary(
  cx: CoilContext,
  cell: Cell,
  part: Part,
  beside: readonly Part[],
  selector: Part | undefined,
  size: Size | undefined,
): Standing {
  const { paper, rails } = cx;
  const [start, finish] = startAndFinish(part);
  const role = (end: End | undefined) => (end ? rails.roleOf(end.junction) : 'alone');
  const studs = studsOf(selector);
  const ways = {
    paper,
    rails,
    elsewhere: studs,
    leadsBack: () => true,
    west: -20,
    clear: false,
  };
  if (selector) {
    const upper = finish && studs.has(finish.id) ? 'finish' : 'start';
    const winding = standing(part, role(finish) === 'low' ? 'start' : upper, size);
    placeWinding(cell, winding, 0, 'right');
    drawTaps(cell, winding, 0, { ...ways, beside: nameReach(cx, cell, winding.lower, false) });
    drawSelector(cell, paper, rails, winding, selector, { x: 0, side: 'west' });
    for (const [end, y, up] of [
      [winding.upper, winding.top, true],
      [winding.lower, bottomOf(winding), false],
    ] as const) {
      if (end && !studs.has(end.id)) leave(cx, cell, winding, end, { x: 0, y }, up);
    }
    return winding;
  }
  const bothSignal = role(start) === 'signal' && role(finish) === 'signal';
  const throughJack =
    start && finish
      ? (upperThroughJack(cx, start, finish) ?? upperOfLoop(cx, part, start, finish))
      : undefined;
  const pushPull = (size !== undefined && bothSignal) || throughJack !== undefined;
  const upper =
    throughJack ??
    (pushPull ? upperOfTwo(cx, part) : bothSignal ? laterEnd(cx, part) : hotEnd(cx, part));
  const usual = standing(part, upper, size);
  const straight = !pushPull && beside.length === 0 && mayEnterAbove(cx, cell, usual);
  const winding = straight ? standing(part, upper === 'start' ? 'finish' : 'start', size) : usual;
  placeWinding(cell, winding, 0, 'right');
  drawTaps(cell, winding, 0, { ...ways, beside: nameReach(cx, cell, winding.lower, false) });
  const west = drawBeside(cx, cell, winding, 0, beside, 'west');
  const leads = leadsOf(winding);
  const top = { x: west, y: beside.length > 0 ? leads.upper : winding.top };
  const bottom = { x: west, y: beside.length > 0 ? leads.lower : bottomOf(winding) };
  if (beside.length > 0) {
    // Both leads turn to what stands at the west of the winding.
    if (winding.upper) wire(cell, winding.upper.junction, 0, winding.top, 0, leads.upper);
    if (winding.lower) wire(cell, winding.lower.junction, 0, bottomOf(winding), 0, leads.lower);
  }
  if (winding.upper) {
    if (straight) enterAbove(cx, cell, winding.upper, top);
    else if (pushPull) side(cell, winding.upper, top, leads.upper);
    else if (bothSignal) over(cell, winding.upper, { x: 0, y: winding.top });
    else leave(cx, cell, winding, winding.upper, top, true);
  }
  if (!winding.lower) return winding;
  if (pushPull) side(cell, winding.lower, bottom, leads.lower);
  else if (role(winding.lower) === 'signal') {
    // The plate comes in below, so that the B supply can leave above.
    const level = cx.level(winding.lower.junction);
    const x = clearWest(cell, bottom.x - 16, level, bottom.y);
    wire(cell, winding.lower.junction, x, level, x, bottom.y, bottom.x, bottom.y);
    cell.ports.push({ net: winding.lower.junction, side: 'west', from: { x, y: level } });
  } else leave(cx, cell, winding, winding.lower, bottom, false);
  return winding;
}

/**
 * Whether the wire from a plate may come in above: the supply then leaves below, which crosses nothing
 * where it goes to a symbol of its own and to no line.
 */
function mayEnterAbove(cx: CoilContext, cell: Cell, { upper, lower }: Standing): boolean {
  if (!upper || !lower || !cx.fromPlate(lower.junction)) return false;
  // A plate that is on a rail has no wire.
  if (cx.rails.roleOf(lower.junction) !== 'signal') return false;
  if (cx.rails.roleOf(upper.junction) !== 'high') return false;
  return !cx.paper.toBus(cell.id, upper.junction, true);
}

/** The plate's lead, straight in from the west and down. */
function enterAbove(
  cx: CoilContext,
  cell: Cell,
  end: End,
  { x, y }: { readonly x: number; readonly y: number },
): void {
  const level = cx.level(end.junction);
  wire(cell, end.junction, x, y, x, level);
  cell.ports.push({ net: end.junction, side: 'west', from: { x, y: level } });
}

/** The end that belongs at the top of a winding which a jack's springs lead to. */
function upperThroughJack(
  cx: CoilContext,
  start: End,
  finish: End,
): 'start' | 'finish' | undefined {
  const [one, other] = [cx.ledBy(start), cx.ledBy(finish)];
  if (!one || !other || one.holder.kind !== 'jack' || one.holder !== other.holder) return undefined;
  const height = ({ by }: Led): number => cx.rails.heightOf(by.junction);
  return height(other) > height(one) ? 'finish' : 'start';
}

/**
 * The end that belongs at the top of a winding of which both leads come from before: the one that
 * the signal reaches first, the other is its return.
 */
function upperOfLoop(
  cx: CoilContext,
  part: Part,
  start: End,
  finish: End,
): 'start' | 'finish' | undefined {
  const own = [start, finish].map(({ junction }) => junction);
  const isSignal = own.every((net) => cx.rails.roleOf(net) === 'signal' && !cx.onPlate(net));
  const first = Math.min(...own.map(cx.rank));
  if (!isSignal || start.junction === finish.junction) return undefined;
  if (!own.every((net) => cx.isBefore(net, part.owner ?? part.name, first))) return undefined;
  return cx.rank(start.junction) === first ? 'start' : 'finish';
}

/** Where a wire may run up and down, no farther to the east than `x`, past all words and symbols. */
function clearWest(cell: Cell, x: number, top: number, bottom: number): number {
  const beside = [...cell.labels, ...cell.marks]
    .map(({ box }) => box)
    .filter((box) => box.bottom > top - 4 && box.top < bottom + 4 && box.left < x + 8);
  return Math.floor(Math.min(x, ...beside.map(({ left }) => left - 7)) / 2) * 2;
}

/** A lead to the west at its own height. */
function side(cell: Cell, end: End, from: { x: number; y: number }, y: number): void {
  wire(cell, end.junction, from.x, from.y, from.x, y);
  cell.ports.push({ net: end.junction, side: 'west', from: { x: from.x, y } });
}

/** A lead to the east over the neighbour. */
function over(cell: Cell, end: End, from: { x: number; y: number }): void {
  wire(cell, end.junction, from.x, from.y, from.x, -40);
  cell.ports.push({ net: end.junction, side: 'east', from: { x: from.x, y: -40 } });
}

/** Leads an end of a primary away to the west, or to its rail. */
function leave(
  cx: CoilContext,
  cell: Cell,
  winding: Standing,
  end: End,
  { x, y }: { readonly x: number; readonly y: number },
  up: boolean,
): void {
  const role = cx.rails.roleOf(end.junction);
  const holder = cx.heldBy(end);
  if (role === 'alone') {
    if (holder === undefined) return;
    const tip = up ? y - 10 : y + 10;
    wire(cell, end.junction, x, y, x, tip, x - 8, tip);
    cell.labels.push(labelAt(holder, 'rail', x - 11, tip - 6, 'end', end.id));
    return;
  }
  if (role !== 'signal') {
    toRail(cx.paper, cell, end.junction, { x, y }, up);
    return;
  }
  const level = up ? cx.level(end.junction) : leadsOf(winding).lower;
  wire(cell, end.junction, x, y, x, level);
  cell.ports.push({ net: end.junction, side: 'west', from: { x, y: level } });
}
