import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt } from '../../src/small-signal/aligned-at.ts';
import { type SmallSignal, smallSignal } from '../../src/small-signal/small-signal.ts';
import {
  eliminateAt,
  type Solution,
  solveDriven,
  tunedSystem,
} from '../../src/small-signal/tuned-system.ts';
import { exampleSets } from '../reading-set.ts';

type Complex = readonly [re: number, im: number];

/** The terms of one law: what they add up to, and how large they are. */
interface Balance {
  re: number;
  im: number;
  size: number;
}

const balance = (): Balance => ({ re: 0, im: 0, size: 0 });

function add(to: Balance, [re, im]: Complex, [x, y]: Complex = [1, 0]): void {
  const term = [re * x - im * y, re * y + im * x] as const;
  to.re += term[0];
  to.im += term[1];
  to.size += Math.hypot(...term);
}

/**
 * The worst of them as a share of its terms. Where less than a ten-millionth of what is the most
 * elsewhere flows or stands, 1e-9 of it is the last figure of a number.
 */
function worstShare(balances: readonly Balance[]): number {
  const most = Math.max(...balances.map(({ size }) => size));
  return Math.max(
    ...balances.map(({ re, im, size }) => Math.hypot(re, im) / Math.max(size, 1e-7 * most)),
  );
}

/** The worst failing of either law of Kirchhoff, piece by piece of the network. */
function worstBalance(
  { network, system }: SmallSignal,
  { re, im }: Solution,
  frequency: number,
  farads: ReadonlyMap<string, number>,
  drive: { readonly volts?: string | undefined; readonly into?: number },
): number {
  const radians = 2 * Math.PI * frequency;
  const at = (point: number): Complex => [re[point]!, im[point]!];
  const points = Array.from({ length: network.points + 1 }, balance);
  const flow = (from: number, to: number, of: Complex, [x, y]: Complex): void => {
    add(points[from]!, of, [x, y]);
    add(points[to]!, of, [-x, -y]);
  };
  /** The volts of either end by themselves: their difference is no surer than they are. */
  const across = (from: number, to: number, plus: number, minus: number, [x, y]: Complex): void => {
    flow(from, to, at(plus), [x, y]);
    flow(from, to, at(minus), [-x, -y]);
  };
  for (const { from, to, siemens } of network.conductances)
    across(from, to, from, to, [siemens, 0]);
  for (const { from, to, farads: set, condenser } of network.capacities)
    across(from, to, from, to, [0, radians * (farads.get(condenser ?? '') ?? set)]);
  for (const { from, to, plus, minus, siemens } of network.steerings)
    across(from, to, plus, minus, [siemens, 0]);
  const loops: Balance[] = [];
  for (const { pieces, henries } of network.series) {
    const amperes = pieces.map(({ name }): Complex => {
      const row = system.rowOfSeries.get(name)! + 1;
      return [re[row]! / 1000, im[row]! / 1000];
    });
    for (const [row, { from, to, name, ohms }] of pieces.entries()) {
      flow(from, to, amperes[row]!, [1, 0]);
      const loop = balance();
      add(loop, at(from));
      add(loop, at(to), [-1, 0]);
      add(loop, [name === drive.volts ? 1 : 0, 0]);
      add(loop, amperes[row]!, [-ohms(frequency), 0]);
      for (const [column, current] of amperes.entries())
        add(loop, current, [0, -radians * henries[row]![column]!]);
      loops.push(loop);
    }
  }
  if (drive.into !== undefined) add(points[drive.into]!, [-1e-3, 0]);
  return Math.max(worstShare(points.slice(1)), worstShare(loops));
}

/** A set driven at audio frequency at its last plate, at radio frequency from its aerial. */
function worstAt(set: SmallSignal, frequency: number): number {
  const { circuit, entrance, system } = set;
  const volts = frequency > 100e3 ? entrance?.series : undefined;
  const plate = circuit.parts.findLast(({ kind }) => kind === 'tube')?.name;
  const into = set.pointOf(plate ? `${plate}.plate` : 'PH1.start')!;
  const { tuning } = alignedAt(set, Math.max(frequency, 550e3));
  const at = { growth: 0, radians: 2 * Math.PI * frequency };
  const room = eliminateAt(tunedSystem(system, tuning), at)!;
  const solution = solveDriven(system, room, {
    electromotive: new Map(volts === undefined ? [] : [[volts, [1, 0]]]),
    currents: new Map(volts === undefined ? [[into, [1e-3, 0]]] : []),
  });
  const drive = volts === undefined ? { into } : { volts };
  return worstBalance(set, solution, frequency, tuning, drive);
}

describe("Kirchhoff's laws hold for the signal", () => {
  // At every point currents, round every coil volts add up to nothing, to within rounding.
  it.each([...exampleSets.entries()])('in %s, at audio and radio frequency', (_, circuit) => {
    const set = smallSignal(circuit, operatingPoint(circuit));
    for (const frequency of [100, 1000, 5000, 550e3, 1e6, 1.5e6])
      expect(worstAt(set, frequency)).toBeLessThan(1e-9);
  });
});
