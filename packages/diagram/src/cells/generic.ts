import type { End, Part } from '@setwright/circuit';
import {
  addMark,
  type Cell,
  emptyCell,
  endOf,
  labelAt,
  nameAndValue,
  type Paper,
  place,
  toRail,
  wire,
} from '../cell.ts';
import { twoEndedSymbol, valueText } from '../part-words.ts';
import type { Rails } from '../rails.ts';
import { half, uprightPart } from './upright.ts';

/** Any part whatever as a box with its ends named; the cell of last resort. */
export function genericCell(paper: Paper, rails: Rails, part: Part): Cell {
  const cell = emptyCell(part.name);
  const ends = Object.fromEntries(part.ends.map((end, index) => [`e${index}`, end]));
  place(cell, part.name, `generic-${part.ends.length}`, { x: 0, y: 0 }, ends);
  nameAndValue(cell, part.name, part.name, valueText(part) ?? part.kind, 0, -44, 'middle');
  for (const [index, end] of part.ends.entries()) {
    const east = index % 2 === 1;
    const y = Math.floor(index / 2) * 20;
    const role = rails.roleOf(end.junction);
    if (role === 'alone') continue;
    if (role === 'signal') {
      cell.ports.push({
        net: end.junction,
        side: east ? 'east' : 'west',
        from: { x: east ? 25 : -25, y },
      });
      continue;
    }
    const x = east ? 35 : -35;
    wire(cell, end.junction, east ? 25 : -25, y, x, y);
    addMark(paper, cell, end.junction, { x, y }, east ? 'bar-right' : 'bar-left');
  }
  return cell;
}

/** A potentiometer in the signal path: its ends one above the other, its arm to the east. */
export function potentiometerCell(paper: Paper, rails: Rails, part: Part): Cell {
  const cell = emptyCell(part.name);
  const [start, finish, arm] = ['start', 'finish', 'arm'].map((name) => endOf(part, name));
  const height = (end: End | undefined): number =>
    !end ? 0 : rails.roleOf(end.junction) === 'signal' ? 4.5 : rails.heightOf(end.junction);
  const [upper, lower] = height(finish) > height(start) ? [finish, start] : [start, finish];
  place(cell, part.name, 'potentiometer', { x: 0, y: 0 }, { a: upper, b: lower, arm });
  nameAndValue(cell, part.name, part.name, valueText(part), -12, -14, 'end');
  for (const [end, y] of [
    [upper, -20],
    [lower, 20],
  ] as const) {
    if (!end) continue;
    const role = rails.roleOf(end.junction);
    if (role === 'signal') {
      wire(cell, end.junction, 0, y, 0, y * 2);
      cell.ports.push({ net: end.junction, side: 'west', from: { x: 0, y: y * 2 } });
    } else if (role !== 'alone') {
      toRail(paper, cell, end.junction, { x: 0, y }, y < 0);
    }
  }
  if (arm) {
    const role = rails.roleOf(arm.junction);
    if (role === 'signal') {
      cell.ports.push({ net: arm.junction, side: 'east', from: { x: 20, y: 0 } });
    } else if (arm.junction === paper.ground) {
      // A ground symbol stands upright.
      wire(cell, arm.junction, 20, 0, 36, 0, 36, 10);
      addMark(paper, cell, arm.junction, { x: 36, y: 10 }, 'bar-down');
    } else if (role !== 'alone') {
      wire(cell, arm.junction, 20, 0, 30, 0);
      addMark(paper, cell, arm.junction, { x: 30, y: 0 }, 'bar-right');
    }
  }
  return cell;
}

const aroundText = ({ companions }: Part): string | undefined =>
  companions.length > 0 ? `around ${companions.join(', ')}` : undefined;

/** A shield with what it stands around, to its rail. */
export function shieldCell(paper: Paper, part: Part): Cell {
  const cell = emptyCell(part.name);
  const end = part.ends[0];
  place(cell, part.name, 'shield', { x: 0, y: 0 }, { shield: end });
  nameAndValue(cell, part.name, part.name, aroundText(part), 0, -46, 'middle');
  if (end) toRail(paper, cell, end.junction, { x: 0, y: 20 });
  return cell;
}

/**
 * A part that no wire is joined to, for the tray; with `holder`, one that is only plugged into
 * something.
 */
export function looseCell(part: Part, holder?: string): Cell {
  const cell = emptyCell(part.name);
  if (part.kind === 'post') {
    place(cell, part.name, 'terminal', { x: 0, y: 0 }, { post: part.ends[0] });
    cell.labels.push(labelAt(part.name, 'name', 10, -8, 'start', part.name));
  } else if (part.ends.length === 2 && twoEndedSymbol(part) !== 'boxed') {
    uprightPart(cell, part, 0, -half, part.ends[0], part.ends[1]);
  } else if (part.kind === 'potentiometer') {
    const [a, b, arm] = ['start', 'finish', 'arm'].map((name) => endOf(part, name));
    place(cell, part.name, 'potentiometer', { x: 0, y: 0 }, { a, b, arm });
    nameAndValue(cell, part.name, part.name, valueText(part), 26, -14, 'start');
  } else if (part.kind === 'shield') {
    place(cell, part.name, 'shield', { x: 0, y: 0 }, { shield: part.ends[0] });
    nameAndValue(cell, part.name, part.name, aroundText(part), 0, -46, 'middle');
  } else {
    const ends = Object.fromEntries(part.ends.map((end, index) => [`e${index}`, end]));
    place(cell, part.name, `generic-${part.ends.length}`, { x: 0, y: 0 }, ends);
    cell.labels.push(labelAt(part.name, 'name', 0, -42, 'middle', part.name));
    const value = valueText(part) ?? part.kind;
    cell.labels.push(labelAt(value, 'value', 0, -28, 'middle', part.name));
  }
  if (holder !== undefined) {
    const tops = [...cell.symbols, ...cell.labels].map(({ box }) => box.top);
    const top = Math.min(...tops);
    cell.labels.push(labelAt(`in ${holder}`, 'rail', 0, top - 16, 'middle', part.name));
    return cell;
  }
  for (const [index, symbol] of cell.symbols.entries()) {
    cell.symbols[index] = { ...symbol, inTheAir: true };
  }
  return cell;
}
