import { describe, expect, it } from 'vitest';
import { planElimination, solveNetwork } from '../src/elimination.ts';
import { gaussian, numbers } from './dense.ts';

function solve(
  nodes: number,
  edges: readonly { a: number; b: number; ohms: number }[],
  injections: readonly number[],
): Float64Array {
  const plan = planElimination(nodes, edges, (node) => node === 0);
  return solveNetwork(
    plan,
    Float64Array.from(edges, ({ ohms }) => 1 / ohms),
    Float64Array.from(injections),
  );
}

describe('a resistor network', () => {
  it('one ampere through three resistors in a row drops their volts one after the other', () => {
    const volts = solve(
      4,
      [
        { a: 0, b: 1, ohms: 1 },
        { a: 1, b: 2, ohms: 2 },
        { a: 2, b: 3, ohms: 3 },
      ],
      [0, 0, 0, 1],
    );
    expect([...volts]).toEqual([0, 1, 3, 6]);
  });

  it('an even bridge has no volts across its middle', () => {
    const volts = solve(
      4,
      [
        { a: 0, b: 1, ohms: 10 },
        { a: 0, b: 2, ohms: 20 },
        { a: 1, b: 3, ohms: 30 },
        { a: 2, b: 3, ohms: 60 },
        { a: 1, b: 2, ohms: 7 },
      ],
      [0, 0, 0, 1],
    );
    expect((volts[1] as number) - (volts[2] as number)).toBeCloseTo(0, 12);
  });

  it('a ladder of a thousand equal rungs has the resistance of the golden ratio', () => {
    const rungs = 1000;
    const edges = Array.from({ length: rungs }, (_, n) => [
      { a: n + 1, b: n + 2, ohms: 1 },
      { a: n + 1, b: 0, ohms: 1 },
    ]).flat();
    const injections = Array.from({ length: rungs + 2 }, (_, n) => (n === 1 ? 1 : 0));
    const edgesWithEnd = [...edges, { a: rungs + 1, b: 0, ohms: 1 }];
    // A ladder that begins with a rung: 1 / phi ohms, phi = (1 + sqrt 5) / 2.
    expect(solve(rungs + 2, edgesWithEnd, injections)[1]).toBeCloseTo((Math.sqrt(5) - 1) / 2, 12);
  });

  it('a leak of ten megohms beside wires of a milliohm keeps its accuracy', () => {
    const volts = solve(
      4,
      [
        { a: 0, b: 1, ohms: 1e7 },
        { a: 1, b: 2, ohms: 1e-3 },
        { a: 2, b: 3, ohms: 1e-3 },
      ],
      [0, 0, 0, 1e-6],
    );
    expect(Math.abs((volts[1] as number) - 10)).toBeLessThan(1e-12);
  });

  it('of ten thousand nodes on two buses is solved in a fifth of a second', () => {
    // Every other node is a lead from one bus, a filament to the next, and back to the other.
    const edges = Array.from({ length: 4999 }, (_, n) => [
      { a: 1, b: 2 * n + 2, ohms: 4 },
      { a: 2 * n + 2, b: 2 * n + 3, ohms: 20 },
      { a: 2 * n + 3, b: 0, ohms: 0.1 },
    ]).flat();
    const injections = Array.from({ length: 10_000 }, (_, n) => (n === 1 ? 4999 : 0));
    expect(solve(10_000, edges, injections)[1]).toBeCloseTo(24.1, 9);
  });

  it('agrees with dense Gaussian elimination, for 60 networks wired at random', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const pick = numbers(seed);
      const nodes = 5 + pick(40);
      const edges: { a: number; b: number; ohms: number }[] = [];
      // A random tree holds it together; the rest makes meshes, with parallel edges among them.
      for (let node = 1; node < nodes; node++)
        edges.push({ a: node, b: pick(node), ohms: 10 ** (pick(70) / 10 - 1) });
      for (let extra = pick(3 * nodes); extra > 0; extra--)
        edges.push({ a: pick(nodes), b: pick(nodes), ohms: 10 ** (pick(70) / 10 - 1) });
      const injections = Array.from({ length: nodes }, () => pick(2001) / 1000 - 1);
      const rows = Array.from({ length: nodes }, () => new Array<number>(nodes).fill(0));
      for (const { a, b, ohms } of edges) {
        if (a === b) continue;
        rows[a]![a]! += 1 / ohms;
        rows[b]![b]! += 1 / ohms;
        rows[a]![b]! -= 1 / ohms;
        rows[b]![a]! -= 1 / ohms;
      }
      const dense = gaussian(
        rows.slice(1).map((row) => row.slice(1)),
        injections.slice(1),
      );
      const sparse = [...solve(nodes, edges, injections)].slice(1);
      const most = Math.max(...dense.map(Math.abs));
      for (const [index, volts] of dense.entries())
        expect(Math.abs(volts - sparse[index]!) / most).toBeLessThan(1e-7);
    }
  });
});
