import { describe, expect, it } from 'vitest';
import { type PlacedSymbol, readGeometry, type Wire } from '../src/index.ts';

const pin = (end: string, x: number, y: number): PlacedSymbol => ({
  part: end,
  symbol: 'terminal',
  at: { x, y },
  turns: 0,
  flipped: false,
  pins: [{ end, at: { x, y } }],
  box: { left: x, right: x, top: y, bottom: y },
  inTheAir: false,
});
const wire = (...flat: number[]): Wire => ({
  net: '',
  points: flat.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: flat[index + 1] ?? 0 }] : [])),
});
const mark = (net: string, x: number, y: number) => ({
  net,
  shape: 'bar-down' as const,
  at: { x, y },
  box: { left: x, right: x, top: y, bottom: y },
});

describe('a picture read back', () => {
  it('joins the two ends of a wire', () => {
    const symbols = [pin('A', 0, 0), pin('B', 50, 50)];
    expect(readGeometry({ symbols, wires: [wire(0, 0, 50, 0, 50, 50)], marks: [] })).toEqual([
      ['A', 'B'],
    ]);
  });

  it('does not join wires that only cross', () => {
    const symbols = [pin('A', 0, 10), pin('B', 20, 10), pin('C', 10, 0), pin('D', 10, 20)];
    const wires = [wire(0, 10, 20, 10), wire(10, 0, 10, 20)];
    expect(readGeometry({ symbols, wires, marks: [] })).toEqual([
      ['A', 'B'],
      ['C', 'D'],
    ]);
  });

  it('joins a wire that ends on another', () => {
    const symbols = [pin('A', 0, 10), pin('B', 20, 10), pin('C', 10, 0)];
    const wires = [wire(0, 10, 20, 10), wire(10, 0, 10, 10)];
    expect(readGeometry({ symbols, wires, marks: [] })).toEqual([['A', 'B', 'C']]);
  });

  it('joins all grounds, but not to the tap that the text grounds: no symbol says so', () => {
    const symbols = [pin('A', 0, 0), pin('B', 50, 0), pin('C', 90, 0)];
    const ground = (x: number) => ({ ...mark('A-', x, 0), shape: 'ground' as const });
    const marks = [ground(0), ground(50), { ...mark('A-', 90, 0), shape: 'none' as const }];
    expect(readGeometry({ symbols, wires: [], marks })).toEqual([['A', 'B'], ['C']]);
  });

  it('joins rails of one name, and not of two', () => {
    const symbols = [pin('A', 0, 0), pin('B', 50, 0), pin('C', 90, 0)];
    const marks = [mark('B+90', 0, 0), mark('B+90', 50, 0), mark('B+45', 90, 0)];
    expect(readGeometry({ symbols, wires: [], marks })).toEqual([['A', 'B'], ['C']]);
  });
});
