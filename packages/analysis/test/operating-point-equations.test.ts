import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Circuit, conductionOf } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coefficientAt, factorDirected, solveDirected } from '../src/directed-elimination.ts';
import { planElimination } from '../src/elimination.ts';
import { type OperatingPoint, operatingPoint } from '../src/index.ts';
import type { TubeLaws } from '../src/tube-law.ts';
import { numbers } from './dense.ts';
import { denseRest } from './dense-rest.ts';

const folder = join(import.meta.dirname, '../../../examples');
const laws: TubeLaws = new WeakMap();
const examples: (readonly [string, Circuit])[] = readdirSync(folder)
  .filter((name) => name.endsWith('.receiver'))
  .flatMap((name) =>
    readReceivers(readFileSync(join(folder, name), 'utf8'), name).circuits.map(
      (circuit) => [name, circuit] as const,
    ),
  );

/** For every junction: what is left of its currents, over all of them added up. */
function imbalances(circuit: Circuit, point: OperatingPoint): readonly number[] {
  const atContacts = point.contacts.flatMap(({ part, from, to, amperes = 0 }) => [
    { part, terminal: from, amperes },
    { part, terminal: to, amperes: -amperes },
  ]);
  return circuit.junctions.map(({ terminals }) => {
    const flows = terminals.map((terminal) => point.current(terminal) ?? 0);
    for (const { part, terminal, amperes } of atContacts)
      if (terminals.includes(terminal) && circuit.partOfEnd.get(terminal)?.name !== part)
        flows.push(amperes);
    const size = flows.reduce((sum, flow) => sum + Math.abs(flow), 0);
    return size < 1e-18 ? 0 : Math.abs(flows.reduce((sum, flow) => sum + flow, 0)) / size;
  });
}

describe.each(examples)('in %s', (_, circuit) => {
  const point = operatingPoint(circuit, undefined, { laws });

  it('a state of rest is found, with nothing to complain of', () => {
    expect(point.failures).toEqual([]);
    expect(point.converged).toBe(true);
  });

  it('what flows into every junction flows out of it', () => {
    expect(Math.max(...imbalances(circuit, point))).toBeLessThan(1e-9);
  });
});

it('every resistance of the examples has the volts across it that Ohm says', () => {
  let compared = 0;
  for (const [, circuit] of examples) {
    const point = operatingPoint(circuit, undefined, { laws });
    for (const { part: name, from, to, direct } of conductionOf(circuit, point.settings).branches) {
      const part = circuit.partNamed.get(name);
      if (direct.kind !== 'conducts' || !direct.ohms || part?.ends.length !== 2) continue;
      const across = point.voltage(from, to) ?? Number.NaN;
      const drop = (point.current(from) ?? Number.NaN) * direct.ohms;
      // Volts are held to a few parts in 1e16 of the highest in the set, which is 180.
      expect(Math.abs(across - drop)).toBeLessThan(1e-9 * Math.abs(across) + 1e-12);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(100);
});

/** Every example with supplies of stated resistance: a bare battery has none to write down. */
const solvedTwice = examples
  .map(([name]) => name)
  .filter((name) => !['crystal.receiver', 'bare-wiring.receiver'].includes(name));

describe('a plain dense solution of the same equations, by ml-matrix', () => {
  it.each(solvedTwice)('comes to the same volts within 1e-9 at every junction of %s', (name) => {
    const circuit = examples.find(([file]) => file === name)![1];
    const point = operatingPoint(circuit, undefined, { laws });
    const control = new Map(point.controls.map(({ part, ohms }) => [part, ohms]));
    const volts = denseRest(circuit, point.settings, control, laws);
    const zero = volts[circuit.endNamed.get('B.B-')!.junction]!;
    let compared = 0;
    for (const { terminals, index } of circuit.junctions) {
      const found = point.voltage(terminals[0]!, 'B.B-');
      if (found === undefined) continue;
      // Grids and filaments stand at volts, plates at a hundred: below a millivolt nothing does.
      const most = 1e-9 * Math.max(Math.abs(found), 1e-2);
      expect(Math.abs(found - (volts[index]! - zero)), terminals[0]).toBeLessThan(most);
      compared++;
    }
    expect(compared).toBeGreaterThan(name.startsWith('one-tube') ? 10 : 15);
  });
});

describe('elimination where nodes act on each other unevenly', () => {
  it('solves every row as near as its terms can be written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 9 }), fc.nat(), (nodes, seed) => {
        const below = numbers(seed + 1);
        const edges = Array.from({ length: 2 * nodes }, () => ({
          a: below(nodes + 1),
          b: below(nodes + 1),
        })).filter(({ a, b }) => a !== b);
        // Every node on a chain to the one that is held, so that all hang together.
        for (let node = 0; node < nodes; node++) edges.push({ a: node, b: node + 1 });
        const plan = planElimination(nodes + 1, edges, (node) => node === nodes);
        const values = new Float64Array(2 * plan.slots);
        const rows = Array.from({ length: nodes }, () => new Array<number>(nodes).fill(0));
        for (const [edge, { a, b }] of edges.entries()) {
          for (const [row, column] of [
            [a, b],
            [b, a],
          ] as const) {
            const siemens = 10 ** -below(7) * (1 + below(9));
            const place = coefficientAt(plan.slotOfEdge[edge]!, row, column);
            values[place] = values[place]! - siemens;
            if (row === nodes) continue;
            rows[row]![row]! += siemens;
            if (column < nodes) rows[row]![column]! -= siemens;
          }
        }
        const right = Float64Array.from({ length: nodes + 1 }, () => 1e-3 * (1 + below(9)));
        const given = [...right];
        const pivots = new Float64Array(plan.order.length);
        const volts = new Float64Array(nodes + 1);
        factorDirected(plan, values, pivots);
        solveDirected(plan, values, pivots, right, volts);
        // Where the nodes hardly hold one another, volts are as large as they are unsure: what has
        // to be right is every row, as near as its terms can be written.
        for (const [row, coefficients] of rows.entries()) {
          const terms = coefficients.map((siemens, node) => siemens * volts[node]!);
          const left = terms.reduce((sum, term) => sum + term, -given[row]!);
          const size = terms.reduce((sum, term) => sum + Math.abs(term), Math.abs(given[row]!));
          expect(Math.abs(left)).toBeLessThan(1e-9 * size);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('does not lose ten megohms beside a microhm', () => {
    // Node 0 hangs by 1e-6 ohm on node 1, and node 1 by ten megohms on the held node 2.
    const plan = planElimination(
      3,
      [
        { a: 0, b: 1 },
        { a: 1, b: 2 },
      ],
      (node) => node === 2,
    );
    const values = new Float64Array(2 * plan.slots);
    for (const [slot, a, b, siemens] of [
      [plan.slotOfEdge[0]!, 0, 1, 1e6],
      [plan.slotOfEdge[1]!, 1, 2, 1e-7],
    ] as const) {
      values[coefficientAt(slot, a, b)] = -siemens;
      values[coefficientAt(slot, b, a)] = -siemens;
    }
    const pivots = new Float64Array(plan.order.length);
    const volts = new Float64Array(3);
    factorDirected(plan, values, pivots);
    solveDirected(plan, values, pivots, Float64Array.of(1e-6, 0, 0), volts);
    expect(volts[0]).toBeCloseTo(10, 9);
  });
});
