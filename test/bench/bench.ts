import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { checkCircuit } from '@setwright/checks';
import { formatText, readReceivers, readText } from '@setwright/language';
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

/** The tool on one example against a bare node, in alternation. */
function start(): void {
  const example = 'examples/five-tube-trf.receiver';
  readFileSync(example);
  const time = (args: readonly string[]) => {
    const from = performance.now();
    spawnSync(process.execPath, [...args], { stdio: 'ignore' });
    return performance.now() - from;
  };
  const bare: number[] = [];
  const tool: number[] = [];
  for (let run = 0; run < 21; run += 1) {
    bare.push(time(['-e', '0']));
    tool.push(time(['dist/setwright.cjs', 'check', example]));
  }
  const middle = (times: number[]) => times.sort((a, b) => a - b)[10] ?? 0;
  const [a, b] = [middle(bare), middle(tool)];
  console.log(
    `\nStarting: node -e 0 ${a.toFixed(0)} ms, setwright check ${example} ${b.toFixed(0)} ms: ${(b / a).toFixed(2)} times`,
  );
}

growth();
oneBadLine();
start();
