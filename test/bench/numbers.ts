import { readFileSync } from 'node:fs';
import {
  operatingPoint,
  response,
  smallSignal,
  stability,
  sweep,
  tunedCircuits,
} from '@setwright/analysis';
import { readReceivers, readText } from '@setwright/language';
import { denseVolts } from '../../packages/analysis/test/small-signal/dense-network.ts';
import { copyOf, equationsAt, solveBare } from './bare-elimination.ts';
import { figure, over, quartilesInTurns, type Ratio, under } from './measuring.ts';

const text = (): string => readFileSync('examples/five-tube-trf.receiver', 'utf8');

function theSet() {
  const circuit = readReceivers(text(), 'five').circuits[0];
  if (!circuit) throw new Error('the example cannot be read');
  return circuit;
}

/** All numbers of the five-tube set, against one bare parse of its text. */
export function wholeAnalysis(): readonly Ratio[] {
  const said = text();
  const circuit = theSet();
  const laws = new WeakMap();
  const point = operatingPoint(circuit, undefined, { laws });
  const stations = Array.from({ length: 20 }, (_, at) => 550e3 + 50e3 * at);
  const { parse, rest, tuned, curve, steady } = quartilesInTurns(21, {
    parse: { often: 5, work: () => readText(said) },
    rest: { often: 5, work: () => operatingPoint(circuit, undefined, { laws }) },
    tuned: { often: 5, work: () => tunedCircuits(circuit) },
    curve: { often: 2, work: () => response(circuit, point, { stations }) },
    steady: { often: 2, work: () => stability(circuit, point) },
  });
  console.log('\nThe five-tube set (milliseconds of the processor; lower quartiles, warm)');
  console.log(`  one parse of its text            ${figure(parse, 2)}`);
  console.log(`  operating point                  ${figure(rest, 2)}`);
  console.log(`  tuned circuits                   ${figure(tuned, 2)}`);
  console.log(`  response at 20 stations          ${figure(curve, 2)}`);
  console.log(`  stability over the band          ${figure(steady, 2)}`);
  const whole = rest + tuned + curve + steady;
  return [under('all numbers of the five-tube set, against one parse of it', whole / parse, 15)];
}

/** A sweep of the five-tube set, against bare elimination and against a dense library. */
export function sweeping(): readonly Ratio[] {
  const circuit = theSet();
  const set = smallSignal(circuit, operatingPoint(circuit));
  const frequencies = Array.from({ length: 200 }, (_, at) => 500e3 + 5e3 * at);
  const equations = frequencies.map((frequency) => equationsAt(set, frequency));
  const entrance = new Map(set.entrance ? [[set.entrance.series, 1] as const] : []);
  const swept = () => sweep(set, frequencies, [{ kind: 'aerial', volts: 1 }], 'V3.grid');
  let copies = equations.map(copyOf);
  const { ours, bare, dense } = quartilesInTurns(7, {
    ours: { often: 5, work: swept },
    bare: {
      often: 1,
      // What is written over is copied beforehand: elimination alone is timed.
      prepare: () => {
        copies = equations.map(copyOf);
      },
      work: () => copies.forEach(solveBare),
    },
    // A tenth of the frequencies is enough to know the time of one solution.
    dense: {
      often: 1,
      work: () =>
        frequencies
          .filter((_, at) => at % 10 === 0)
          .map((frequency) => denseVolts(set.network, frequency, entrance, new Map())),
    },
  });
  const heard = set.pointOf('V3.grid') ?? 0;
  const isSame = swept().every((volts, at) => {
    const { rightRe, rightIm } = copies[at] ?? {};
    const size = Math.hypot(volts?.re ?? 0, volts?.im ?? 0);
    const bareSize = Math.hypot(rightRe?.[heard - 1] ?? 0, rightIm?.[heard - 1] ?? 0);
    return Math.abs(size - bareSize) < 1e-6 * size;
  });
  if (!isSame) throw new Error('the sweep and bare elimination do not agree');
  console.log(
    `\nA sweep of 200 frequencies of it, ${set.system.pattern.size} unknowns (milliseconds of the processor; lower quartiles)`,
  );
  console.log(`  this engine                      ${figure(ours, 2)}`);
  console.log(`  bare elimination, same matrices  ${figure(bare, 2)}`);
  console.log(`  ml-matrix                        ${figure(10 * dense, 2)}`);
  return [
    under('a sweep of 200 frequencies, against bare elimination', ours / bare, 4),
    over('the same by ml-matrix, against the sweep', (10 * dense) / ours, 30),
  ];
}
