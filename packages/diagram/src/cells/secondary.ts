import type { Part } from '@setwright/circuit';
import { type Cell, toRail, wire } from '../cell.ts';
import { type CoilContext, nameReach } from './coil-context.ts';
import { postInLead } from './posts.ts';
import { drawSelector, type SelectorPlace, studsOf } from './selector.ts';
import {
  bottomOf,
  drawBeside,
  drawTaps,
  leadsOf,
  placeWinding,
  type Standing,
} from './windings.ts';

/** How a winding with what tunes it stands in its cell. */
export interface TunedPlace {
  readonly x: number;
  /** How far to the west a tap's lead goes that leads back; none where that is clear. */
  readonly west: number | undefined;
  /** Whether the junction of the upper lead runs on to the west as well. */
  readonly through: boolean;
  readonly leadsBack: (net: number) => boolean;
  /** Posts that stand in the lead to the rail below. */
  readonly posts?: readonly string[];
  /** Selectors whose studs are all on this winding, and how each stands at it. */
  readonly selectors?: readonly (Omit<SelectorPlace, 'x'> & { readonly part: Part })[];
}

/** A winding with the parts across it beside it, its junctions leaving to the east. */
export function drawTuned(
  cx: CoilContext,
  cell: Cell,
  winding: Standing,
  beside: readonly Part[],
  { x, west, through, leadsBack, posts = [], selectors = [] }: TunedPlace,
): void {
  const { paper, rails } = cx;
  const clear = beside.length === 0;
  const studs = new Set(selectors.flatMap(({ part }) => [...studsOf(part)]));
  placeWinding(cell, winding, x, 'left');
  const before = cell.ports.length;
  const below = nameReach(cx, cell, winding.lower, false);
  drawTaps(cell, winding, x, {
    paper,
    rails,
    elsewhere: studs,
    leadsBack,
    west,
    clear,
    beside: below,
  });
  // Leads of taps run round below the winding.
  const round = cell.ports.slice(before).filter(({ side }) => side === 'east');
  const rounded = Math.max(0, ...round.map(({ from }) => from.y));
  const last = drawBeside(cx, cell, winding, x, beside);
  const leads = leadsOf(winding);
  const [top, bottom] = [winding.top, bottomOf(winding)];
  const { upper, lower } = winding;
  for (const { part, ...at } of selectors) {
    drawSelector(cell, paper, rails, winding, part, { ...at, x });
  }
  if (upper && !studs.has(upper.id)) {
    const net = upper.junction;
    const role = rails.roleOf(net);
    if (role === 'signal' || (role !== 'alone' && !clear)) wire(cell, net, x, top, x, leads.upper);
    if (role === 'signal') {
      cell.ports.push({ net, side: 'east', from: { x: last, y: leads.upper } });
      if (through) cell.ports.push({ net, side: 'west', from: { x, y: leads.upper } });
    } else if (role !== 'alone') {
      toRail(paper, cell, net, { x, y: clear ? top : leads.upper }, true);
    }
  }
  if (!lower || studs.has(lower.id)) return;
  const net = lower.junction;
  const role = rails.roleOf(net);
  if (role === 'alone') return;
  if (role === 'signal') {
    wire(cell, net, x, bottom, x, leads.lower);
    const isCold = upper !== undefined && rails.roleOf(upper.junction) === 'signal';
    cell.ports.push({ net, side: 'east', from: { x: last, y: leads.lower }, isCold });
    return;
  }
  const foot = Math.max(clear ? bottom : leads.lower, rounded > bottom ? rounded + 10 : 0);
  wire(cell, net, x, bottom, x, foot);
  let y = foot;
  for (const [at, name] of posts.entries()) {
    // Two posts in one lead stand clear of one another.
    const length = at === 0 ? 12 : 20;
    wire(cell, net, x, y, x, y + length);
    y += length;
    postInLead(cell, name, x, y);
  }
  toRail(paper, cell, net, { x, y });
}
