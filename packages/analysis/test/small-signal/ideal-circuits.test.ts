import { describe, expect, it } from 'vitest';
import type { SignalNetwork } from '../../src/small-signal/signal-network.ts';
import { signalSystem } from '../../src/small-signal/signal-system.ts';
import {
  eliminateAt,
  type Solution,
  solveDriven,
  tunedSystem,
} from '../../src/small-signal/tuned-system.ts';

const FREQUENCY = 1e6;
const RADIANS = 2 * Math.PI * FREQUENCY;

function solved(
  network: SignalNetwork,
  frequency: number,
  drive: { readonly volts?: string; readonly into?: number },
  farads = new Map<string, number>(),
): Solution & { row(name: string): number } {
  const system = signalSystem(network);
  const at = { growth: 0, radians: 2 * Math.PI * frequency };
  const room = eliminateAt(tunedSystem(system, farads), at)!;
  const electromotive = new Map(drive.volts === undefined ? [] : [[drive.volts, [1, 0] as const]]);
  const currents = new Map(drive.into === undefined ? [] : [[drive.into, [1, 0] as const]]);
  const solution = solveDriven(system, room, { electromotive, currents });
  return { ...solution, row: (name) => system.rowOfSeries.get(name)! + 1 };
}

function size({ re, im }: Solution, at: number): number {
  return Math.hypot(re[at]!, im[at]!);
}

function mostOver(low: number, high: number, value: (x: number) => number): number {
  let [a, b] = [low, high];
  for (let step = 0; step < 200; step++) {
    const [one, other] = [a + 0.382 * (b - a), a + 0.618 * (b - a)];
    if (value(one) < value(other)) a = one;
    else b = other;
  }
  return value((a + b) / 2);
}

describe('a tube of amplification 8 and 10000 ohms into a tuned transformer', () => {
  // Secondary 200 µH of Q 100 at 1000 kc. Gains: μωMQ/(rp + (ωM)²/Rs), F. E. Terman, Radio
  // Engineering (1932), from memory.
  function gain(primary: number, mutual: number): number {
    const secondary = 200e-6;
    const network: SignalNetwork = {
      points: 3,
      conductances: [{ from: 2, to: 0, siemens: 1e-4 }],
      capacities: [{ from: 3, to: 0, farads: 0, condenser: 'C' }],
      steerings: [{ from: 2, to: 0, plus: 1, minus: 0, siemens: 8e-4 }],
      series: [
        { pieces: [{ from: 1, to: 0, name: 'grid', ohms: () => 1 }], henries: [[0]] },
        {
          pieces: [
            { from: 2, to: 0, name: 'primary', ohms: () => 0 },
            { from: 3, to: 0, name: 'secondary', ohms: () => (RADIANS * secondary) / 100 },
          ],
          henries: [
            [primary, mutual],
            [mutual, secondary],
          ],
        },
      ],
    };
    return mostOver(80e-12, 250e-12, (farads) => {
      const solution = solved(network, FREQUENCY, { into: 1 }, new Map([['C', farads]]));
      return size(solution, 3) / size(solution, 1);
    });
  }

  it('of a small primary with 20 µH between gains 8.931', () => {
    expect(gain(2.05e-6, 20e-6) / 8.931).toBeCloseTo(1, 3);
  });

  it('with 40 µH between gains 13.380', () => {
    expect(gain(8.2e-6, 40e-6) / 13.38).toBeCloseTo(1, 3);
  });

  it('of 15 µH and coupling .6 gains 12.3345, solved by its two meshes and tuned anew', () => {
    // Reckoned by the two mesh equations to twenty digits, in another system.
    expect(gain(15e-6, 0.6 * Math.sqrt(15e-6 * 200e-6))).toBeCloseTo(12.3345, 3);
  });
});

describe('two equal circuits coupled loosely', () => {
  const inductance = 200e-6;
  const q = 1000;
  function secondaryCurrent(coupling: number, frequency = FREQUENCY): number {
    const k = coupling / q;
    const resistance = (RADIANS * inductance) / q;
    const farads = 1 / (RADIANS * RADIANS * inductance);
    const network: SignalNetwork = {
      points: 2,
      conductances: [],
      capacities: [
        { from: 1, to: 0, farads },
        { from: 2, to: 0, farads },
      ],
      steerings: [],
      series: [
        {
          pieces: [
            { from: 1, to: 0, name: 'first', ohms: () => resistance },
            { from: 2, to: 0, name: 'second', ohms: () => resistance },
          ],
          henries: [
            [inductance, k * inductance],
            [k * inductance, inductance],
          ],
        },
      ],
    };
    const solution = solved(network, frequency, { volts: 'first' });
    return size(solution, solution.row('second'));
  }

  // 2kQ/(1 + (kQ)²) of what they pass at critical coupling: theory of the handbooks.
  it.each([
    [0.25, 0.47059],
    [0.5, 0.8],
    [0.75, 0.96],
    [1.5, 0.92308],
    [2, 0.8],
    [3, 0.6],
    [4, 0.47059],
  ])('at %f of critical coupling pass %f of the most', (coupling, share) => {
    expect(secondaryCurrent(coupling) / secondaryCurrent(1)).toBeCloseTo(share, 4);
  });

  it('at twice critical coupling have their humps where 2Q times the detuning is 1.732', () => {
    const hump = secondaryCurrent(2, FREQUENCY * (1 + 1.732 / (2 * q)));
    expect(hump / secondaryCurrent(1)).toBeCloseTo(1, 2);
    expect(hump).toBeGreaterThan(secondaryCurrent(2, FREQUENCY * (1 + 1.5 / (2 * q))));
    expect(hump).toBeGreaterThan(secondaryCurrent(2, FREQUENCY * (1 + 2 / (2 * q))));
  });
});

describe('a circuit of Q 100', () => {
  // Universal resonance curve, exact: 1/|1 + jQ(f/f₀ − f₀/f)|.
  it.each([
    [1.01, 0.44899],
    [0.99, 0.44541],
  ])('at %f of its frequency passes %f', (ratio, share) => {
    const inductance = 200e-6;
    const network: SignalNetwork = {
      points: 1,
      conductances: [],
      capacities: [{ from: 1, to: 0, farads: 1 / (RADIANS * RADIANS * inductance) }],
      steerings: [],
      series: [
        {
          pieces: [{ from: 1, to: 0, name: 'coil', ohms: () => (RADIANS * inductance) / 100 }],
          henries: [[inductance]],
        },
      ],
    };
    const at = solved(network, FREQUENCY * ratio, { volts: 'coil' });
    const middle = solved(network, FREQUENCY, { volts: 'coil' });
    expect(size(at, at.row('coil')) / size(middle, middle.row('coil'))).toBeCloseTo(share, 5);
  });
});

describe('a tube with a resistance in its plate', () => {
  const load = 50_000;
  const network: SignalNetwork = {
    points: 2,
    conductances: [
      { from: 2, to: 0, siemens: 1e-4 },
      { from: 2, to: 0, siemens: 1 / load },
    ],
    capacities: [
      { from: 1, to: 0, farads: 3.1e-12 },
      { from: 1, to: 2, farads: 8.1e-12 },
    ],
    steerings: [{ from: 2, to: 0, plus: 1, minus: 0, siemens: 8e-4 }],
    series: [],
  };
  const frequency = 1000;
  const solution = solved(network, frequency, { into: 1 });

  it('of amplification 8 and 10000 ohms gains 6.6667 into 50000 ohms', () => {
    // A = μR/(rp + R): handbooks.
    expect(size(solution, 2) / size(solution, 1)).toBeCloseTo(6.6667, 3);
  });

  it('holds 65.2 mmfd at its grid', () => {
    // J. M. Miller, Bureau of Standards Scientific Paper 351 (1919), from memory:
    // Cgf + Cgp (1 + A) with 3.1 and 8.1 mmfd of an 01-A.
    const farads = 1 / (2 * Math.PI * frequency * size(solution, 1));
    expect(farads * 1e12).toBeCloseTo(65.2, 2);
  });
});
