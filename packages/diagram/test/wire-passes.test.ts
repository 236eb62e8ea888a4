import { describe, expect, it } from 'vitest';
import type { Box, Point, Wire } from '../src/index.ts';
import { mergeWires } from '../src/merge-wires.ts';
import { partJoints } from '../src/part-joints.ts';
import { trimWires } from '../src/trim-wires.ts';

const wire = (net: string, ...flat: readonly number[]): Wire => ({
  net,
  points: flat.flatMap((x, at) => (at % 2 === 0 ? [{ x, y: flat[at + 1]! }] : [])),
});
const at = (x: number, y: number): Point => ({ x, y });
const dot = (x: number, y: number): Box => ({ left: x, top: y, right: x, bottom: y });

/** In how many directions wires of a junction leave a point. */
function armsAt(wires: readonly Wire[], { x, y }: Point): number {
  const arms = new Set<string>();
  for (const { points } of wires) {
    const [a, b] = [points[0]!, points.at(-1)!];
    const on =
      x >= Math.min(a.x, b.x) &&
      x <= Math.max(a.x, b.x) &&
      y >= Math.min(a.y, b.y) &&
      y <= Math.max(a.y, b.y);
    if (!on) continue;
    for (const end of [a, b]) {
      if (end.x !== x || end.y !== y) arms.add(`${Math.sign(end.x - x)},${Math.sign(end.y - y)}`);
    }
  }
  return arms.size;
}

describe('a dot at which four wires meet', () => {
  const cross = mergeWires([wire('a', 0, 100, 200, 100), wire('a', 100, 0, 100, 200)]);
  const pins = [at(0, 100), at(200, 100), at(100, 0), at(100, 200)];

  it('becomes two, and every end is still reached', () => {
    const parted = partJoints(cross, { boxes: [], pins });
    expect(armsAt(cross, at(100, 100))).toBe(4);
    expect(armsAt(parted, at(100, 100))).toBe(3);
    const ends = parted.flatMap(({ points }) => points).map(({ x, y }) => `${x},${y}`);
    expect(pins.filter(({ x, y }) => !ends.includes(`${x},${y}`))).toEqual([]);
  });

  it('keeps clear of what stands beside it', () => {
    const wall: Box = { left: 104, top: 0, right: 180, bottom: 200 };
    const parted = partJoints(cross, { boxes: [wall], pins });
    expect(armsAt(parted, at(100, 100))).toBe(3);
    const xs = parted.flatMap(({ points }) => points).map(({ x }) => x);
    expect(xs.filter((x) => x > 100 && x < 200)).toEqual([]);
  });

  it('stays where there is no room', () => {
    const walls: Box[] = [
      { left: 20, top: 0, right: 96, bottom: 90 },
      { left: 20, top: 110, right: 96, bottom: 200 },
      { left: 104, top: 0, right: 180, bottom: 90 },
      { left: 104, top: 110, right: 180, bottom: 200 },
    ];
    expect(partJoints(cross, { boxes: walls, pins })).toEqual(cross);
  });

  it('is left alone where wires of two junctions cross', () => {
    const plain = mergeWires([wire('a', 0, 100, 200, 100), wire('b', 100, 0, 100, 200)]);
    expect(partJoints(plain, { boxes: [], pins })).toEqual(plain);
  });
});

describe('a wire that leads into the air', () => {
  it('is cut back to where something meets it', () => {
    const wires = [wire('a', 0, 0, 100, 0), wire('a', 60, 0, 60, 50)];
    const pins = [at(0, 0), at(60, 50)];
    expect(trimWires(wires, { pins, boxes: [] })).toEqual([
      wire('a', 0, 0, 60, 0),
      wire('a', 60, 0, 60, 50),
    ]);
  });

  it('goes with all that led to nothing but it', () => {
    const wires = [wire('a', 0, 0, 100, 0), wire('a', 100, 0, 100, 50), wire('b', 0, 9, 9, 9)];
    expect(trimWires(wires, { pins: [at(0, 0), at(0, 9), at(9, 9)], boxes: [] })).toEqual([
      wire('b', 0, 9, 9, 9),
    ]);
  });

  it('stays where a spring or stud is', () => {
    const wires = [wire('a', 0, 0, 100, 0)];
    expect(trimWires(wires, { pins: [at(0, 0)], boxes: [dot(100, 0)] })).toEqual(wires);
  });
});
