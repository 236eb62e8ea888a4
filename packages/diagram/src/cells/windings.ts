import type { End, Part } from '@setwright/circuit';
import { addMark, type Cell, endOf, labelAt, type Paper, place, wire } from '../cell.ts';
import type { Rails } from '../rails.ts';
import { uprightPart } from './upright.ts';

/** A winding as it will stand: which end is up, and how many loops it shows. */
export interface Standing {
  readonly part: Part;
  readonly upper: End | undefined;
  readonly lower: End | undefined;
  readonly loops: number;
}

/** Where the windings of a cell begin and end. */
export const top = 20;

export function standing(part: Part, upper: 'start' | 'finish'): Standing {
  const lower = upper === 'start' ? 'finish' : 'start';
  const loops = part.taps.length > 2 ? Math.min(30, part.taps.length * 3) : 6;
  return { part, upper: endOf(part, upper), lower: endOf(part, lower), loops };
}

export const bottomOf = (winding: Standing): number => top + winding.loops * 10;

/** The loops between which each tap leaves, counted from above; no two at one place. */
function tapPorts(winding: Standing): { end: End; port: string; y: number }[] {
  const { part, loops, upper } = winding;
  const taken = new Set<number>();
  const taps = [...part.taps].sort((a, b) => (a.fraction ?? 0.5) - (b.fraction ?? 0.5));
  return taps.flatMap((tap) => {
    const end = endOf(part, tap.end);
    if (!end) return [];
    const fraction = upper?.name === 'start' ? (tap.fraction ?? 0.5) : 1 - (tap.fraction ?? 0.5);
    let vertex = Math.min(loops - 1, Math.max(1, Math.round(fraction * loops)));
    for (let step = 1; taken.has(vertex) && step < loops * 2; step++) {
      const next = vertex + (step % 2 === 0 ? step : -step);
      if (next >= 1 && next < loops) vertex = next;
    }
    taken.add(vertex);
    return [{ end, port: `t${vertex}`, y: top + vertex * 10 }];
  });
}

/** Sets down the winding itself with its taps' stubs to the west. */
export function drawWinding(
  paper: Paper,
  rails: Rails,
  cell: Cell,
  winding: Standing,
  x: number,
  facing: 'left' | 'right',
  studs: ReadonlySet<string>,
): void {
  const { part, upper, lower, loops } = winding;
  const taps = tapPorts(winding);
  place(
    cell,
    part.name,
    part.kind === 'loop' && taps.length === 0 ? 'loop' : `winding-${loops}-${facing}`,
    { x, y: top + loops * 5 },
    { a: upper, b: lower, ...Object.fromEntries(taps.map(({ end, port }) => [port, end])) },
  );
  let row = bottomOf(winding) + 30;
  let column = x - 12;
  for (const { end, y } of taps) {
    const role = rails.roleOf(end.junction);
    if (studs.has(end.id) || role === 'alone') continue;
    if (role === 'signal') {
      wire(cell, end.junction, x, y, column, y, column, row, x + 20, row);
      cell.ports.push({ net: end.junction, side: 'east', from: { x: x + 20, y: row } });
      row += 10;
      column -= 10;
      continue;
    }
    wire(cell, end.junction, x, y, x - 12, y);
    addMark(paper, cell, end.junction, { x: x - 12, y }, 'bar-left');
  }
}

/** A selector whose studs are all on this winding, drawn at its taps. */
export function drawSelector(
  cell: Cell,
  rails: Rails,
  winding: Standing,
  selector: Part,
  x: number,
): void {
  const spots = new Map(tapPorts(winding).map(({ end, y }) => [end.id, y]));
  const { upper, lower } = winding;
  const studX = x - 18;
  if (upper) spots.set(upper.id, top - 10);
  if (lower) spots.set(lower.id, bottomOf(winding) + 10);
  const arm = endOf(selector, 'arm');
  const armY = 0;
  let chosen: number | undefined;
  for (const contact of selector.contacts) {
    const id = spots.has(contact.to) ? contact.to : contact.from;
    const y = spots.get(id);
    const end = winding.part.ends.find((one) => one.id === id);
    if (y === undefined || !end) continue;
    if (contact.closedAt.includes(selector.drawnAt)) chosen = y;
    if (end === upper) wire(cell, end.junction, x, top, x, y, studX, y);
    else if (end === lower) wire(cell, end.junction, x, bottomOf(winding), x, y, studX, y);
    else wire(cell, end.junction, x, y, studX, y);
    place(cell, selector.name, 'terminal', { x: studX - 4, y }, {});
  }
  const pivotX = studX - 34;
  const pivotY = Math.round((top + bottomOf(winding)) / 20) * 10;
  place(cell, selector.name, 'terminal', { x: pivotX, y: pivotY }, { post: arm });
  if (chosen !== undefined) {
    cell.ornaments.push({
      kind: 'arm',
      points: [
        { x: pivotX + 3.5, y: pivotY },
        { x: studX - 8, y: chosen },
      ],
    });
  }
  cell.labels.push(
    labelAt(selector.name, 'name', pivotX - 6, pivotY + 10, 'middle', selector.name),
  );
  if (arm && rails.roleOf(arm.junction) === 'signal') {
    wire(cell, arm.junction, pivotX, pivotY, pivotX, armY);
    cell.ports.push({ net: arm.junction, side: 'west', from: { x: pivotX, y: armY } });
  } else if (arm && rails.roleOf(arm.junction) !== 'alone') {
    wire(cell, arm.junction, pivotX, pivotY, pivotX - 10, pivotY);
  }
}

/** Parts across a winding, upright beside it, between its two leads. Returns the last place. */
export function drawBeside(
  cell: Cell,
  winding: Standing,
  x: number,
  parts: readonly Part[],
): number {
  const { upper, lower } = winding;
  if (!upper || !lower) return x;
  const low = bottomOf(winding) + 20;
  let at = x;
  let next = x + 50;
  for (const part of parts) {
    const up = part.ends.find((end) => end.junction === upper.junction);
    const down = part.ends.find((end) => end.junction === lower.junction);
    const from = Math.round((low / 2 - 20) / 10) * 10;
    wire(cell, upper.junction, at, 0, next, 0);
    wire(cell, upper.junction, next, 0, next, from);
    uprightPart(cell, part, next, from, up, down);
    wire(cell, lower.junction, next, from + 40, next, low);
    wire(cell, lower.junction, at, low, next, low);
    at = next;
    const right = Math.max(
      ...cell.labels.filter((l) => l.part === part.name).map((l) => l.box.right),
    );
    next = Math.ceil((right + 18) / 10) * 10;
  }
  return at;
}
