import type { Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, place } from '../cell.ts';

/** The aerial, its lead going east at level 0. */
export function aerialCell(post: Part): Cell {
  const cell = emptyCell(post.name);
  const end = post.ends[0];
  place(cell, post.name, 'aerial', { x: 0, y: 0 }, { post: end });
  cell.labels.push(labelAt(post.name, 'name', 0, -47, 'middle', post.name));
  if (end) cell.ports.push({ net: end.junction, side: 'east', from: { x: 0, y: 0 } });
  return cell;
}

/** A post or a named junction on a signal wire. */
export function postCell(post: Part, level: number): Cell {
  const cell = emptyCell(post.name);
  const end = post.ends[0];
  const symbol = post.kind === 'bus' ? 'name' : 'terminal';
  place(cell, post.name, symbol, { x: 0, y: level }, { post: end, bus: end });
  cell.labels.push(labelAt(post.name, 'rail', 0, level - 19, 'middle', post.name));
  if (end) {
    for (const side of ['west', 'east'] as const) {
      cell.ports.push({ net: end.junction, side, from: { x: 0, y: level } });
    }
  }
  return cell;
}

/** A post in an upright lead, its name at its left. */
export function postInLead(cell: Cell, name: string, x: number, y: number): void {
  place(cell, name, 'terminal', { x, y }, {});
  const symbol = cell.symbols.pop();
  if (symbol) cell.symbols.push({ ...symbol, pins: [{ end: name, at: { x, y } }] });
  cell.labels.push(labelAt(name, 'rail', x - 8, y - 6, 'end', name));
}
