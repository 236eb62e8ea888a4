import type { Part } from '@setwright/circuit';
import { addMark, type Cell, endOf, labelAt, type Paper, place, wire } from '../cell.ts';
import type { Rails } from '../rails.ts';
import { bottomOf, leadsOf, type Standing, tapPorts } from './windings.ts';

/** How a selector stands at its winding. */
export interface SelectorPlace {
  /** Where the winding stands. */
  readonly x: number;
  /** The side of the winding at which its studs stand. */
  readonly side: 'west' | 'east';
  /** How far to the east its arm's wire runs on above the winding, where it does. */
  readonly through?: number;
}

/** The ends that the studs of a selector lead to, by their full names. */
export const studsOf = (selector: Part | undefined): ReadonlySet<string> =>
  new Set(selector?.contacts.flatMap(({ from, to }) => [from, to]));

/** A selector whose studs are all on this winding, drawn at its taps. */
export function drawSelector(
  cell: Cell,
  paper: Paper,
  rails: Rails,
  winding: Standing,
  selector: Part,
  { x, side, through }: SelectorPlace,
): void {
  const out = side === 'west' ? -1 : 1;
  const spots = new Map(tapPorts(winding).map(({ end, y }) => [end.id, y]));
  const { upper, lower } = winding;
  const leads = leadsOf(winding);
  const studX = x + out * 18;
  if (upper) spots.set(upper.id, leads.upper);
  if (lower) spots.set(lower.id, leads.lower);
  const arm = endOf(selector, 'arm');
  let chosen: number | undefined;
  const seen = new Set<number>();
  for (const contact of selector.contacts) {
    const id = spots.has(contact.to) ? contact.to : contact.from;
    const y = spots.get(id);
    const end = winding.part.ends.find((one) => one.id === id);
    if (y === undefined || !end) continue;
    if (contact.closedAt.includes(selector.drawnAt)) chosen = y;
    // Two positions may lead to one end.
    if (seen.has(y)) continue;
    seen.add(y);
    if (end === upper) wire(cell, end.junction, x, winding.top, x, y, studX, y);
    else if (end === lower) wire(cell, end.junction, x, bottomOf(winding), x, y, studX, y);
    else wire(cell, end.junction, x, y, studX, y);
    place(cell, selector.name, 'terminal', { x: studX + out * 4, y }, {});
  }
  const pivot = {
    x: studX + out * 34,
    y: Math.round((winding.top + bottomOf(winding)) / 20) * 10,
  };
  place(cell, selector.name, 'terminal', pivot, { post: arm });
  if (chosen !== undefined) {
    const points = [
      { x: pivot.x - out * 3.5, y: pivot.y },
      { x: studX + out * 8, y: chosen },
    ];
    cell.ornaments.push({ kind: 'arm', points });
  }
  cell.labels.push(
    labelAt(selector.name, 'name', pivot.x + out * 6, pivot.y + 10, 'middle', selector.name),
  );
  if (!arm || rails.roleOf(arm.junction) === 'alone') return;
  if (rails.roleOf(arm.junction) === 'signal') {
    wire(cell, arm.junction, pivot.x, pivot.y, pivot.x, 0);
    cell.ports.push({ net: arm.junction, side, from: { x: pivot.x, y: 0 } });
    if (through === undefined) return;
    wire(cell, arm.junction, pivot.x, 0, through, 0);
    cell.ports.push({ net: arm.junction, side: 'east', from: { x: through, y: 0 } });
    return;
  }
  wire(cell, arm.junction, pivot.x, pivot.y, pivot.x + out * 12, pivot.y);
  const shape = side === 'west' ? 'bar-left' : 'bar-right';
  addMark(paper, cell, arm.junction, { x: pivot.x + out * 12, y: pivot.y }, shape);
}
