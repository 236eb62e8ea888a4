import { describe, expect, it } from 'vitest';
import { wireCurrents } from '../src/wire-currents.ts';

describe('the current in a wire without resistance', () => {
  it('is what the tree beyond it brings', () => {
    const wires = [
      { from: 0, to: 1 },
      { from: 2, to: 1 },
      { from: 1, to: 3 },
    ];
    expect([...wireCurrents(4, wires, Float64Array.of(2, 0, 3, -5))]).toEqual([2, 3, 5]);
  });

  it('cannot be told in two wires side by side', () => {
    const wires = [
      { from: 0, to: 1 },
      { from: 0, to: 1 },
      { from: 1, to: 2 },
    ];
    expect([...wireCurrents(3, wires, Float64Array.of(1, 0, -1))]).toEqual([NaN, NaN, 1]);
  });

  it('is certain between two rings', () => {
    const wires = [
      { from: 0, to: 1 },
      { from: 1, to: 2 },
      { from: 2, to: 0 },
      { from: 2, to: 3 },
      { from: 3, to: 4 },
      { from: 4, to: 3 },
    ];
    const found = wireCurrents(5, wires, Float64Array.of(1, 1, 0, 0, -2));
    expect(found[3]).toBe(2);
    expect([found[0], found[4]]).toEqual([NaN, NaN]);
  });

  it('cannot be told in a wire with both ends on one junction', () => {
    expect([...wireCurrents(1, [{ from: 0, to: 0 }], Float64Array.of(0))]).toEqual([NaN]);
  });
});
