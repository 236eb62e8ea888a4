import { isFilamentSupply, type Part, spread } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { SheetGrounds } from '../sheet-grounds.ts';
import { nextUp } from './preferred-numbers.ts';

/** Volts of a cell and of a small block that are sold today. Common practice. */
const CELL = 1.5;
const BLOCK = 9;

/** Room that a supply is given above what the set draws. Common practice. */
const ROOM = 1.5;

const amperes = [0.25, 0.5, 1, 1.5, 2, 3, 5, 10];

/** What serves in place of a battery today. Common practice; empty where nothing is to be said. */
export function inItsPlace(supply: Part, { rows, style }: SheetGrounds): string {
  if (supply.kind === 'eliminator') return 'its repair is for licensed hands';
  const drain = rows.find((row) => row.part === supply.name && row.quantity === 'drain')?.value;
  const volts = spread(supply);
  if (!(volts > 0)) return '';
  const at = (value: number): string => formatQuantity(value, 'voltage', style);
  if (supply.words.has('storage')) {
    const size = drain === undefined ? undefined : nextUp(ROOM * Math.abs(drain), amperes);
    const enough = size === undefined ? '' : `, good for ${formatQuantity(size, 'current', style)}`;
    return `a lead battery, or a steady supply of ${at(volts)}${enough}, its output tied to nothing; fused`;
  }
  if (isFilamentSupply(supply)) {
    const cells = Math.round(volts / CELL);
    return Math.abs(cells * CELL - volts) < 0.05 * volts
      ? `${cells === 1 ? 'one cell' : `${cells} cells`} of ${at(CELL)} in series`
      : '';
  }
  const steps = supply.supplyTaps.flatMap((tap) => (tap.volts && tap.volts > 0 ? tap.volts : []));
  const blocks = [...new Set(steps)]
    .sort((a, b) => a - b)
    .map((each) => {
      const count = Math.round(each / BLOCK);
      const given = count * BLOCK;
      return `${count} for ${at(each)}${Math.abs(given - each) < 0.01 * each ? '' : ` (gives ${at(given)})`}`;
    });
  return blocks.length > 0 ? `blocks of ${at(BLOCK)} in series: ${blocks.join(', ')}` : '';
}
