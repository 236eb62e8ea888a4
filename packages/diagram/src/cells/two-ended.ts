import type { End, Part } from '@setwright/circuit';
import { type Cell, emptyCell, type Paper, toRail, wire } from '../cell.ts';
import { nameText, twoEndedSymbol, valueText } from '../part-words.ts';
import { symbolShape } from '../symbols.ts';
import { textWidth } from '../text-width.ts';
import { postInLead } from './posts.ts';
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
  const inLead = (names: readonly string[], net: number, before: number, after: number): void => {
    for (const [at, name] of names.entries()) {
      // Two posts in one lead stand clear of one another.
      const length = at === 0 ? before : Math.max(before, 20);
      wire(cell, net, 0, y, 0, y + sign * length);
      y += sign * length;
      postInLead(cell, name, 0, y);
    }
    if (names.length === 0) return;
    wire(cell, net, 0, y, 0, y + sign * after);
    y += sign * after;
  };
  if (posts.signal.length > 0) inLead(posts.signal, signal.junction, 10, 4);
  else {
    wire(cell, signal.junction, 0, y, 0, y + sign * 10);
    y += sign * 10;
  }
  if (up) uprightPart(cell, part, 0, y - 40, rail, signal);
  else uprightPart(cell, part, 0, y, signal, rail);
  y += sign * 40;
  inLead(posts.rail, rail.junction, 4, 0);
  if (!isAlone(rail)) toRail(paper, cell, rail.junction, { x: 0, y }, up);
  // What stands on a plate's wire stands clear of the tube.
  const room = up ? 30 : 10;
  for (const side of ['west', 'east'] as const) {
    cell.ports.push({ net: signal.junction, side, from: { x: 0, y: level }, room });
  }
  return cell;
}

/** A part with both ends on one junction: the wire runs on below it, and nothing flows through. */
export function shortedCell(part: Part, level: number): Cell {
  const cell = emptyCell(part.name);
  const [one, other] = part.ends;
  const net = one?.junction ?? -1;
  flatPart(cell, part, 10, level - 40, one, other);
  wire(
    cell,
    net,
    10,
    level - 40,
    0,
    level - 40,
    0,
    level,
    60,
    level,
    60,
    level - 40,
    50,
    level - 40,
  );
  for (const [side, x] of [
    ['west', 0],
    ['east', 60],
  ] as const) {
    cell.ports.push({ net, side, from: { x, y: level } });
  }
  return cell;
}

/** A part or a parallel pair between two signal junctions, lying in the line. */
export function seriesCell(
  parts: readonly Part[],
  from: number,
  to: number,
  fromLevel: number,
  toLevel: number,
): Cell {
  const cell = emptyCell(parts.map(({ name }) => name).join('+'), 'link');
  const level = fromLevel;
  // Upright wires pass clear of the words above a part.
  const words = Math.max(...parts.map(wordsWidth)) / 2 - 24;
  const room = Math.max(0, Math.ceil(words / 10) * 10);
  const left = parts.length > 2 ? -room : 0;
  const right = 60 + (parts.length > 2 || toLevel < level ? room : 0);
  let y = level;
  for (const [index, part] of parts.entries()) {
    if (index > 0) y -= pitchOf(part, index > 1 ? parts[index - 1] : undefined);
    const near = part.ends.find((end) => end.junction === from);
    const far = part.ends.find((end) => end.junction === to);
    flatPart(cell, part, 10, y, near, far, index === 0 && parts.length > 1 ? 'below' : 'above');
    if (index > 0) {
      wire(cell, from, left, level, left, y, 10, y);
      wire(cell, to, right, level, right, y, 50, y);
    }
  }
  wire(cell, from, left, level, 10, level);
  const ends = parts.length > 1 ? level : toLevel;
  wire(cell, to, 50, level, right, level, right, ends);
  cell.ports.push({ net: to, side: 'east', from: { x: right, y: ends } });
  cell.ports.push({ net: from, side: 'west', from: { x: left, y: level } });
  return cell;
}

/** From one part of several side by side to the next above it, whose words may lie between. */
function pitchOf(part: Part, below: Part | undefined): number {
  if (!below) return 50;
  const words = valueText(below) ? 32 : 17;
  return Math.max(50, Math.ceil((halfOf(part) + words + halfOf(below) + 2) / 10) * 10);
}

/** How far a part that lies reaches up and down. */
function halfOf(part: Part): number {
  const { left, right } = symbolShape(twoEndedSymbol(part)).box;
  return Math.max(-left, right);
}

const wordsWidth = (part: Part): number =>
  Math.max(textWidth(nameText(part), 'name'), textWidth(valueText(part) ?? '', 'value'));

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
