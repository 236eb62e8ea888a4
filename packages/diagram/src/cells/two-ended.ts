import type { End, Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, type Paper, place, toRail, wire } from '../cell.ts';
import { flatPart, uprightPart } from './upright.ts';

/**
 * A part between a signal junction and a rail: the junction runs straight through at its level
 * and the part hangs from it, or stands on it where the rail is a B supply. Posts on either end
 * are drawn in the lead.
 */
export function shuntCell(
  paper: Paper,
  part: Part,
  signal: End,
  rail: End,
  level: number,
  up: boolean,
  posts: { readonly signal: readonly string[]; readonly rail: readonly string[] },
  isAlone: (end: End) => boolean,
): Cell {
  const cell = emptyCell(part.name);
  const sign = up ? -1 : 1;
  let y = level;
  const inLead = (names: readonly string[], net: number): void => {
    for (const name of names) {
      wire(cell, net, 0, y, 0, y + sign * 12);
      y += sign * 12;
      post(cell, name, 0, y);
    }
  };
  inLead(posts.signal, signal.junction);
  wire(cell, signal.junction, 0, y, 0, y + sign * 10);
  y += sign * 10;
  if (up) uprightPart(cell, part, 0, y - 40, rail, signal);
  else uprightPart(cell, part, 0, y, signal, rail);
  y += sign * 40;
  inLead(posts.rail, rail.junction);
  if (!isAlone(rail)) toRail(paper, cell, rail.junction, { x: 0, y }, up);
  for (const side of ['west', 'east'] as const) {
    cell.ports.push({ net: signal.junction, side, from: { x: 0, y: level } });
  }
  return cell;
}

function post(cell: Cell, name: string, x: number, y: number): void {
  place(cell, name, 'terminal', { x, y }, {});
  const symbol = cell.symbols.pop();
  if (symbol) cell.symbols.push({ ...symbol, pins: [{ end: name, at: { x, y } }] });
  cell.labels.push(labelAt(name, 'rail', x - 8, y - 6, 'end', name));
}

/** A part or a parallel pair between two signal junctions, lying in the line. */
export function seriesCell(
  parts: readonly Part[],
  from: number,
  to: number,
  fromLevel: number,
  toLevel: number,
): Cell {
  const cell = emptyCell(parts.map(({ name }) => name).join('+'));
  const level = fromLevel;
  for (const [index, part] of parts.entries()) {
    const y = level - index * 50;
    const left = part.ends.find((end) => end.junction === from);
    const right = part.ends.find((end) => end.junction === to);
    flatPart(cell, part, 10, y, left, right, index === 0 && parts.length > 1 ? 'below' : 'above');
    if (index > 0) {
      wire(cell, from, 0, level, 0, y, 10, y);
      wire(cell, to, 60, level, 60, y, 50, y);
    }
  }
  wire(cell, from, 0, level, 10, level);
  if (toLevel === level || parts.length > 1) {
    wire(cell, to, 50, level, 60, level);
    cell.ports.push({ net: to, side: 'east', from: { x: 60, y: level } });
  } else {
    wire(cell, to, 50, level, 60, level, 60, toLevel);
    cell.ports.push({ net: to, side: 'east', from: { x: 60, y: toLevel } });
  }
  cell.ports.push({ net: from, side: 'west', from: { x: 0, y: level } });
  return cell;
}

/** A part with both ends on rails, upright; an end may be joined to nothing. */
export function columnCell(
  paper: Paper,
  part: Part,
  upper: End,
  lower: End,
  isAlone: (end: End) => boolean,
): Cell {
  const cell = emptyCell(part.name);
  uprightPart(cell, part, 0, -20, upper, lower);
  if (!isAlone(upper)) toRail(paper, cell, upper.junction, { x: 0, y: -20 }, true);
  if (!isAlone(lower)) toRail(paper, cell, lower.junction, { x: 0, y: 20 });
  return cell;
}
