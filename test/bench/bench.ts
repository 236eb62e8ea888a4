import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import {
  operatingPoint,
  response,
  smallSignal,
  stability,
  sweep,
  tunedCircuits,
} from '@setwright/analysis';
import { checkCircuit } from '@setwright/checks';
import { formatText, readReceivers, readText } from '@setwright/language';
import { denseVolts } from '../../packages/analysis/test/small-signal/dense-network.ts';
import { bigSet } from '../support/big-set.ts';

/** Median of the times of several runs, in milliseconds, after one that does not count. */
function median(runs: number, work: () => unknown): number {
  work();
  const times: number[] = [];
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}

const figure = (value: number, digits = 1) => value.toFixed(digits).padStart(9);

function growth(): void {
  console.log('How time grows with the number of stages (milliseconds; medians)');
  console.log('   stages    parse     read    check   format   read+check per stage');
  for (const stages of [125, 250, 500, 1000]) {
    const text = bigSet(stages);
    const circuit = readReceivers(text, 'big').circuits[0];
    if (!circuit) throw new Error('the set of the benchmark cannot be read');
    const parse = median(3, () => readText(text));
    const read = median(3, () => readReceivers(text, 'big'));
    const check = median(3, () => checkCircuit(circuit));
    const format = median(3, () => formatText(text));
    console.log(
      `${String(stages).padStart(9)}${figure(parse)}${figure(read)}${figure(check)}${figure(format)}${figure((read + check) / stages, 3)}`,
    );
  }
}

function oneBadLine(): void {
  const text = bigSet(1000);
  const bad = text.replace('condenser C500 ', 'condenser C500 @ ');
  const good = median(3, () => readText(text));
  const broken = median(3, () => readText(bad));
  console.log(
    `\nOne bad line in 1,000 stages: reading takes ${(broken / good).toFixed(2)} times as long`,
  );
}

/** The numbers of the five-tube set, against a bare parse and against a dense library. */
function numbers(): void {
  const text = readFileSync('examples/five-tube-trf.receiver', 'utf8');
  const circuit = readReceivers(text, 'five').circuits[0];
  if (!circuit) throw new Error('the example cannot be read');
  const laws = new WeakMap();
  const parse = median(31, () => readText(text));
  const rest = median(31, () => operatingPoint(circuit, undefined, { laws }));
  const tuned = median(31, () => tunedCircuits(circuit));
  const point = operatingPoint(circuit, undefined, { laws });
  const set = smallSignal(circuit, point);
  const frequencies = Array.from({ length: 200 }, (_, at) => 500e3 + 5e3 * at);
  const ours = median(11, () => sweep(set, frequencies, [{ kind: 'aerial', volts: 1 }], 'V3.grid'));
  const entrance = new Map(set.entrance ? [[set.entrance.series, 1] as const] : []);
  // A tenth of the sweep is enough to know the time of one solution.
  const dense =
    10 *
    median(3, () => {
      for (const frequency of frequencies.slice(0, 20))
        denseVolts(set.network, frequency, entrance, new Map());
    });
  const stations = Array.from({ length: 20 }, (_, at) => 550e3 + 50e3 * at);
  const curve = median(3, () => response(circuit, point, { stations }));
  const steady = median(3, () => stability(circuit, point, {}));
  console.log('\nThe five-tube set (milliseconds; medians, warm)');
  console.log(`  one parse of its text            ${figure(parse, 2)}`);
  console.log(`  operating point                  ${figure(rest, 2)}`);
  console.log(`  tuned circuits                   ${figure(tuned, 2)}`);
  console.log(`  sweep of 200 frequencies         ${figure(ours, 2)}`);
  console.log(
    `  the same solved by ml-matrix     ${figure(dense, 2)}  ${(dense / ours).toFixed(0)} times as long`,
  );
  console.log(`  response at 20 stations          ${figure(curve, 2)}`);
  console.log(`  stability over the band          ${figure(steady, 2)}`);
  const whole = rest + tuned + curve + steady;
  console.log(`  all of it against one parse      ${(whole / parse).toFixed(1)} times`);
}

/** The tool on one example against a bare node, in alternation. */
function start(): void {
  const example = 'examples/five-tube-trf.receiver';
  readFileSync(example);
  const timeOf = (command: string, args: readonly string[]) => {
    const from = performance.now();
    spawnSync(command, [...args], { stdio: 'ignore' });
    return performance.now() - from;
  };
  const time = (args: readonly string[]) => timeOf(process.execPath, args);
  const ways: [string, () => number][] = [
    ['node -e 0', () => time(['-e', '0'])],
    ['dist/setwright.cjs check', () => timeOf('dist/setwright.cjs', ['check', example])],
    ['node dist/setwright.cjs check', () => time(['dist/setwright.cjs', 'check', example])],
  ];
  const times = ways.map(() => [] as number[]);
  for (let run = 0; run < 21; run += 1)
    for (const [index, [, measure]] of ways.entries()) times[index]?.push(measure());
  const middles = times.map((each) => each.sort((a, b) => a - b)[10] ?? 0);
  console.log(`\nStarting, on ${example} (milliseconds; medians of 21 in alternation)`);
  for (const [index, [name]] of ways.entries()) {
    const middle = middles[index] ?? 0;
    console.log(
      `  ${name.padEnd(32)} ${figure(middle, 0)}  ${(middle / (middles[0] || 1)).toFixed(2)} times`,
    );
  }
}

growth();
oneBadLine();
numbers();
start();
