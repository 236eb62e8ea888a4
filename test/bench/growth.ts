import { operatingPoint, response, smallSignal, sweep } from '@setwright/analysis';
import { checkCircuit } from '@setwright/checks';
import { formatText, readReceivers, readText } from '@setwright/language';
import { bigSet } from '../support/big-set.ts';
import { figure, median, quartilesInTurns, type Ratio, under } from './measuring.ts';

const circuitOf = (text: string) => {
  const circuit = readReceivers(text, 'big').circuits[0];
  if (!circuit) throw new Error('the set of the benchmark cannot be read');
  return circuit;
};

/** What eight times the stages may cost at most, against eight times the time of one. */
const STEEPEST = 2;

/** How reading and checking grow with the number of stages. */
export function growth(): readonly Ratio[] {
  console.log('How time grows with the number of stages (milliseconds of the processor; medians)');
  console.log('   stages    parse     read    check   format   read+check per stage');
  const perStage: number[] = [];
  for (const stages of [125, 250, 500, 1000]) {
    const text = bigSet(stages);
    const circuit = circuitOf(text);
    const parse = median(3, () => readText(text));
    const read = median(3, () => readReceivers(text, 'big'));
    const check = median(3, () => checkCircuit(circuit));
    const format = median(3, () => formatText(text));
    perStage.push((read + check) / stages);
    console.log(
      `${String(stages).padStart(9)}${figure(parse)}${figure(read)}${figure(check)}${figure(format)}${figure((read + check) / stages, 3)}`,
    );
  }
  const steepness = (perStage.at(-1) ?? 0) / (perStage[0] ?? 1);
  return [under('reading and checking, per stage, 1,000 stages against 125', steepness, STEEPEST)];
}

/** How the numbers grow with the number of stages, in sets of as many as anybody built and more. */
export function growthOfNumbers(): readonly Ratio[] {
  console.log('\nHow the numbers grow with it (milliseconds of the processor; medians)');
  console.log('   stages     rest  network  20 frequencies  response at 2 stations');
  const perStage: number[] = [];
  for (const stages of [5, 10, 20, 40]) {
    const circuit = circuitOf(bigSet(stages));
    const point = operatingPoint(circuit);
    const set = smallSignal(circuit, point);
    const frequencies = Array.from({ length: 20 }, (_, at) => 500e3 + 50e3 * at);
    const rest = median(5, () => operatingPoint(circuit));
    const network = median(5, () => smallSignal(circuit, point));
    const swept = median(5, () =>
      sweep(set, frequencies, [{ kind: 'aerial', volts: 1 }], `V${stages}.grid`),
    );
    const heard = median(3, () => response(circuit, point, { stations: [600e3, 1e6] }));
    perStage.push((rest + network + swept) / stages);
    console.log(
      `${String(stages).padStart(9)}${figure(rest)}${figure(network)}${figure(swept, 2).padStart(16)}${figure(heard).padStart(24)}`,
    );
  }
  const steepness = (perStage.at(-1) ?? 0) / (perStage[0] ?? 1);
  return [
    under('state of rest, network and sweep, per stage, 40 stages against 5', steepness, STEEPEST),
  ];
}

/** What one bad line costs. */
export function oneBadLine(): readonly Ratio[] {
  const text = bigSet(1000);
  const bad = text.replace('condenser C500 ', 'condenser C500 @ ');
  const { good, broken } = quartilesInTurns(3, {
    good: { often: 1, work: () => readText(text) },
    broken: { often: 1, work: () => readText(bad) },
  });
  return [under('reading 1,000 stages with one bad line, against without', broken / good, 1.5)];
}
