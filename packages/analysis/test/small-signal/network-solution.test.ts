import { readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { response } from '../../src/small-signal/response.ts';
import {
  type SmallSignal,
  type SmallSignalOptions,
  smallSignal,
  solveAt,
} from '../../src/small-signal/small-signal.ts';
import { stability } from '../../src/small-signal/stability.ts';
import { exampleSets, setFrom } from '../reading-set.ts';
import { denseVolts } from './dense-network.ts';

function example(name: string, options: SmallSignalOptions = {}): SmallSignal {
  const circuit = exampleSets.get(name)!;
  return smallSignal(circuit, operatingPoint(circuit), options);
}

/** Rounding of a dense elimination with real numbers. */
const CLOSE = 1e-9;

describe('the solution of a set at one frequency', () => {
  it.each([...exampleSets.keys()])('is that of a dense elimination in %s', (name) => {
    const set = example(name);
    const entrance = set.entrance?.series;
    // A set whose aerial is not told of is driven by a current into its first part.
    const into = set.circuit.parts.flatMap(({ ends }) => ends).find(({ id }) => set.pointOf(id))!;
    let compared = 0;
    for (const frequency of [100, 3000, 40e3, 550e3, 1e6, 1.5e6, 10e6]) {
      const at = entrance
        ? solveAt(set, frequency, [{ kind: 'aerial', volts: 1 }])!
        : solveAt(set, frequency, [{ kind: 'current', into: into.id, amperes: 1e-3 }])!;
      const dense = entrance
        ? denseVolts(set.network, frequency, new Map([[entrance, 1]]), new Map())
        : denseVolts(set.network, frequency, new Map(), new Map([[set.pointOf(into.id)!, 1e-3]]));
      const most = Math.max(...dense.map(({ re, im }) => Math.hypot(re, im)));
      expect(most).toBeGreaterThan(0);
      for (const terminal of set.circuit.endNamed.keys()) {
        const point = set.pointOf(terminal);
        if (point === undefined) continue;
        const { re, im } = at.voltage(terminal)!;
        const other = dense[point]!;
        expect(Math.hypot(re - other.re, im - other.im) / most).toBeLessThan(CLOSE);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(50);
  });

  it('is the voltage divider of two resistors', () => {
    const circuit = setFrom(
      'battery B dry {\n tap B-\n tap B+45 45 V\n resistance 1 ohms\n}',
      'post ANT aerial 200 mmfd\npost GND ground\nwire GND to B-',
      'resistor R1 1000 ohms from ANT to N',
      'bus N',
      'resistor R2 3000 ohms from N to GND',
    );
    const set = smallSignal(circuit, operatingPoint(circuit));
    const at = solveAt(set, 1e6, [{ kind: 'current', into: 'R1.start', amperes: 1e-3 }])!;
    const all = at.voltage('R1.start')!;
    const part = at.voltage('R2.start')!;
    expect(Math.hypot(part.re, part.im) / Math.hypot(all.re, all.im)).toBeCloseTo(0.75, 7);
  });

  it('has no answer at no frequency, below, or at one that is no number', () => {
    const set = example('two-tube');
    for (const frequency of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(solveAt(set, frequency, [])).toBeUndefined();
  });

  it('knows no volts of a terminal that does not exist', () => {
    const at = solveAt(example('two-tube'), 1e6, [{ kind: 'aerial', volts: 1 }])!;
    expect(at.voltage('NOBODY.grid')).toBeUndefined();
  });

  it('moves with the stand of a condenser', () => {
    const set = example('five-tube-trf');
    const at = (farads: number): number => {
      const tuning = new Map([['C1', farads]]);
      const volts = solveAt(set, 1e6, [{ kind: 'aerial', volts: 1 }], tuning)!.voltage('V1.grid')!;
      return Math.hypot(volts.re, volts.im);
    };
    expect(at(100e-12) / at(300e-12)).toBeGreaterThan(3);
  });
});

describe('what hangs in the air by itself', () => {
  const file = new URL('../../../../examples/five-tube-trf.receiver', import.meta.url);
  const five = readFileSync(file, 'utf8');
  const withMore = (...lines: readonly string[]) => {
    const [circuit] = readReceivers(
      five.replace('  bus NEG', `${lines.map((line) => `  ${line}\n`).join('')}  bus NEG`),
      'set',
    ).circuits;
    const point = operatingPoint(circuit!);
    const stations = [600e3, 1e6];
    const heard = response(circuit!, point, { stations }).stations;
    return {
      volts: heard.map(({ detectorVolts }) => detectorVolts!),
      verdict: stability(circuit!, point, { stations }).verdict,
    };
  };
  const whole = withMore();

  it.each([
    ['a condenser that nothing is joined to', ['condenser C99 2 mfd']],
    ['two in a ring', ['condenser C98 2 mfd', 'condenser C99 1 mfd across C98']],
    [
      'a tuned circuit',
      ['coil L99 {\n    winding only 100 uH 2 ohms\n  }', 'condenser C99 .001 mfd across L99.only'],
    ],
  ])('changes nothing: %s', (_, lines) => {
    const found = withMore(...lines);
    expect(found.verdict).toBe('steady');
    for (const [at, volts] of found.volts.entries())
      expect(Math.abs(volts / whole.volts[at]! - 1)).toBeLessThan(1e-9);
  });
});

describe('a set with its tubes cold', () => {
  // What goes in at one place and comes out at another is the same the other way round in every
  // network without tubes: reciprocity, the first thing any handbook of networks proves.
  it.each([...exampleSets.keys()])('is reciprocal: %s', (name) => {
    const circuit = exampleSets.get(name)!;
    const tubes = circuit.parts.filter(({ kind }) => kind === 'tube').map((part) => part.name);
    const cold = operatingPoint(circuit).solveWithout(tubes);
    const set = smallSignal(circuit, cold);
    const terminals = [...circuit.endNamed.keys()].filter((id) => (set.pointOf(id) ?? 0) > 0);
    const far = terminals.at(-1)!;
    for (const frequency of [1000, 1e6]) {
      for (const near of terminals.slice(0, 5)) {
        const there = solveAt(set, frequency, [{ kind: 'current', into: near, amperes: 1e-3 }])!;
        const back = solveAt(set, frequency, [{ kind: 'current', into: far, amperes: 1e-3 }])!;
        const one = there.voltage(far)!;
        const other = back.voltage(near)!;
        const [own, opposite] = [there.voltage(near)!, back.voltage(far)!];
        const size = Math.sqrt(Math.hypot(own.re, own.im) * Math.hypot(opposite.re, opposite.im));
        expect(Math.hypot(one.re - other.re, one.im - other.im) / size).toBeLessThan(1e-9);
      }
    }
  });
});
