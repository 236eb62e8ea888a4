import type { Circuit } from '@setwright/circuit';
import {
  type Suspects,
  type SuspectsBook,
  suspectsBook,
  suspectsOf,
} from '../src/suspects/suspects-of.ts';
import { exampleText, setOf } from './example-set.ts';

/** Two tubes, which are soon worked out: a detector that regenerates and one audio stage. */
const TEXT = exampleText('two-tube');

/** A meter of today. */
export const METER = 'meter 10 megohms 1 %';

/** The set with a bench of these lines in place of its own. */
export function setWithBench(...lines: readonly string[]): Circuit {
  const inside = lines.map((line) => `    ${line}\n`).join('');
  const at = TEXT.indexOf('  bench "');
  return setOf(`${TEXT.slice(0, at)}  bench "dead" {\n${inside}  }\n}\n`);
}

let known: SuspectsBook | undefined;

/** The suspects of that set by what a bench says that was taken with a meter of today. */
export function suspectsBy(...lines: readonly string[]): Suspects {
  const circuit = setWithBench(METER, ...lines);
  const [bench] = circuit.benches;
  if (!bench) throw new Error('the set has no bench');
  known ??= suspectsBook(circuit, { bench });
  return suspectsOf(circuit, bench, {}, known);
}
