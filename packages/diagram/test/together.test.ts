import { describe, expect, it } from 'vitest';
import { type Cell, emptyCell } from '../src/cell.ts';
import type { Run } from '../src/compact/run.ts';
import { drawTogether } from '../src/compact/together.ts';

/** A cell with one symbol that covers 40 by 40 about its middle. */
function block(name: string): Cell {
  const cell = emptyCell(name);
  cell.symbols.push({
    part: name,
    symbol: 'boxed',
    at: { x: 0, y: 0 },
    turns: 0,
    flipped: false,
    pins: [],
    box: { left: -20, top: -20, right: 20, bottom: 20 },
    inTheAir: false,
  });
  return cell;
}
const run = (from: number, to: number, ...flat: number[]): Run => ({
  net: 0,
  from,
  to,
  points: flat.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: flat[index + 1] ?? 0 }] : [])),
  rooms: [0, 0],
});
const [a, b, c] = [block('a'), block('b'), block('c')];

describe('a row drawn together', () => {
  it('has things side by side as near as they may stand', () => {
    const { offsets } = drawTogether(
      [a, b],
      [
        { x: 0, y: 0 },
        { x: 300, y: 0 },
      ],
      [],
    );
    expect(offsets.map(({ x }) => x)).toEqual([0, 55]);
  });

  it('lets what stands at another height pass below', () => {
    const { offsets } = drawTogether(
      [a, b],
      [
        { x: 0, y: 0 },
        { x: 300, y: 80 },
      ],
      [],
    );
    expect(offsets.map(({ x }) => x)).toEqual([0, 0]);
  });

  it('keeps a cell to the right of another at any height where that is asked for', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 300, y: 80 },
    ];
    const { offsets } = drawTogether([a, b], places, [], [[0, 1]]);
    expect(offsets[1]!.x).toBeGreaterThanOrEqual(50);
  });

  it('does not let a thing pass an upright wire', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 300, y: 100 },
      { x: 400, y: 60 },
    ];
    const wire = run(0, 1, 20, 0, 200, 0, 200, 100, 280, 100);
    const { offsets, runs } = drawTogether([a, b, c], places, [wire]);
    const upright = runs[0]!.points[1]!.x;
    expect(upright).toBeLessThan(200);
    expect(offsets[2]!.x - 20).toBeGreaterThanOrEqual(upright + 10);
  });

  it('keeps a wire joined to the cells that it joins', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 300, y: 100 },
    ];
    const { offsets, runs } = drawTogether([a, b], places, [
      run(0, 1, 20, 0, 200, 0, 200, 100, 280, 100),
    ]);
    const [first, last] = [runs[0]!.points[0]!, runs[0]!.points.at(-1)!];
    expect(first.x).toBe(offsets[0]!.x + 20);
    expect(last.x).toBe(offsets[1]!.x - 20);
  });

  it('moves nothing up or down', () => {
    const { offsets } = drawTogether(
      [a, b],
      [
        { x: 0, y: 15 },
        { x: 300, y: 25 },
      ],
      [],
    );
    expect(offsets.map(({ y }) => y)).toEqual([15, 25]);
  });
});
