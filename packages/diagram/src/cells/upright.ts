import type { End, Part } from '@setwright/circuit';
import { type Cell, nameAndValue, place } from '../cell.ts';
import { twoEndedSymbol, valueText } from '../part-words.ts';

/** Half the height of every upright two-ended symbol. */
export const half = 20;

/** A two-ended part upright, its upper end at `top`; labels at its right. */
export function uprightPart(
  cell: Cell,
  part: Part,
  x: number,
  top: number,
  upper: End | undefined,
  lower: End | undefined,
): void {
  const symbol = twoEndedSymbol(part);
  place(cell, part.name, symbol, { x, y: top + half }, { a: upper, b: lower });
  const value = valueText(part);
  const right = cell.symbols.at(-1)?.box.right ?? x;
  nameAndValue(cell, part.name, part.name, value, right + 4, top + (value ? 7 : 14), 'start');
}

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
  place(cell, part.name, symbol, { x: left + half, y }, { a: leftEnd, b: rightEnd }, { turns: 3 });
  const value = valueText(part);
  const edge = cell.symbols.at(-1)?.box;
  const upper = side === 'above' ? (edge?.top ?? y) - (value ? 30 : 16) : (edge?.bottom ?? y) + 3;
  nameAndValue(cell, part.name, part.name, value, left + half, upper, 'middle');
}
