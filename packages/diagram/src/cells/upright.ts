import type { End, Part } from '@setwright/circuit';
import { type Cell, nameAndValue, place } from '../cell.ts';
import { nameText, twoEndedSymbol, valueText } from '../part-words.ts';

/** Half the height of every upright two-ended symbol. */
export const half = 20;

/** A two-ended part upright, its upper end at `top`; its words at its right, or at its left. */
export function uprightPart(
  cell: Cell,
  part: Part,
  x: number,
  top: number,
  upper: End | undefined,
  lower: End | undefined,
  side: 'left' | 'right' = 'right',
): void {
  const symbol = twoEndedSymbol(part);
  place(cell, part.name, symbol, { x, y: top + half }, { a: upper, b: lower });
  const value = valueText(part);
  const box = cell.symbols.at(-1)?.box;
  const edge = side === 'right' ? (box?.right ?? x) + 4 : (box?.left ?? x) - 4;
  const anchor = side === 'right' ? 'start' : 'end';
  nameAndValue(cell, part.name, nameText(part), value, edge, top + (value ? 6 : 13), anchor);
}

const arrowed = new Set([
  'condenser-variable',
  'condenser-trimmer',
  'resistor-variable',
  'variometer',
]);

/** A two-ended part lying down, its left end at `left`; labels above or below. */
export function flatPart(
  cell: Cell,
  part: Part,
  left: number,
  y: number,
  leftEnd: End | undefined,
  rightEnd: End | undefined,
  side: 'above' | 'below' = 'above',
): void {
  const symbol = twoEndedSymbol(part);
  const at = { x: left + half, y };
  // Arrows point up and to the right whether a part stands or lies.
  if (arrowed.has(symbol)) {
    place(cell, part.name, symbol, at, { a: rightEnd, b: leftEnd }, { turns: 3, flipped: true });
  } else place(cell, part.name, symbol, at, { a: leftEnd, b: rightEnd }, { turns: 3 });
  const value = valueText(part);
  const edge = cell.symbols.at(-1)?.box;
  const upper = side === 'above' ? (edge?.top ?? y) - (value ? 32 : 17) : (edge?.bottom ?? y) + 3;
  nameAndValue(cell, part.name, nameText(part), value, left + half, upper, 'middle');
}
