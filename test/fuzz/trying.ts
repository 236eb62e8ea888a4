import { faultTable, readingsOf, suspectsOf } from '@setwright/bench';
import { checkCircuit, quickChecks } from '@setwright/checks';
import type { Circuit } from '@setwright/circuit';
import { differencesOf, isSame, plainSetOf } from '@setwright/compare';
import { drawCircuit, layoutEngine, overlayOf, sceneToSvg, viewsOf } from '@setwright/diagram';
import { formatText, readReceivers } from '@setwright/language';
import {
  dialColumns,
  dialReadings,
  dialsInJson,
  dialsInWords,
  plainStyles,
  responseInJson,
  responseInWords,
  responseOf,
  tourMarkdown,
  tourOf,
  valuesInJson,
  valuesInWords,
  valuesOf,
} from '@setwright/report';
import { chanceOf } from '../support/random/chance.ts';

/** What went wrong with an input. */
export interface Failure {
  readonly stage: string;
  readonly message: string;
}

/** What a piece of work took, in milliseconds. */
export type Clock = (stage: string, milliseconds: number) => void;

/** What no person should ever read. */
const NONSENSE = /\bNaN\b|\bInfinity\b|∞|\bundefined\b|\[object |failed on this set/;

/** Of how many inputs one goes through each stage: what takes long is tried of fewer. */
const oneOf: Readonly<Record<string, number>> = {
  read: 1,
  format: 1,
  check: 2,
  values: 4,
  dials: 4,
  response: 10,
  bench: 8,
  compare: 4,
  draw: 20,
  tour: 30,
  faults: 60,
  suspects: 60,
};

/**
 * Puts a text through everything that is made of sets, and gives what went wrong: whatever throws,
 * and every figure and word that is none.
 *
 * @param thin what is not tried of every input is tried of so many times fewer; 0 tries all
 */
export async function tried(
  text: string,
  seed: number,
  clock: Clock = () => {},
  thin = 1,
): Promise<readonly Failure[]> {
  const chance = chanceOf(seed ^ 0x5eed);
  const failures: Failure[] = [];
  const stage = async (name: string, work: () => unknown): Promise<void> => {
    const share = oneOf[name] ?? 1;
    if (chance.below(share === 1 ? 1 : Math.max(1, share * thin)) > 0) return;
    const from = performance.now();
    try {
      const said = await work();
      const found = typeof said === 'string' ? NONSENSE.exec(withoutText(said, text)) : null;
      if (found) {
        const about = (said as string).slice(Math.max(0, found.index - 60), found.index + 60);
        failures.push({ stage: name, message: `says ${found[0]}: ${about}` });
      }
    } catch (error) {
      failures.push({
        stage: name,
        message: error instanceof Error ? `${error.stack}` : `${error}`,
      });
    }
    clock(name, performance.now() - from);
  };
  let circuits: readonly Circuit[] = [];
  await stage('read', () => {
    const read = readReceivers(text, 'any.receiver');
    circuits = read.circuits;
    const remarks = [...read.remarks, ...circuits.flatMap((circuit) => circuit.remarks)];
    return remarks.map(({ message, why, cure }) => `${message} ${why} ${cure}`).join('\n');
  });
  await stage('format', () => {
    const once = formatText(text).text;
    const twice = formatText(once).text;
    if (twice !== once) throw new Error('formatting again gives another text');
  });
  for (const [index, circuit] of circuits.slice(0, 2).entries()) {
    await stage('check', () =>
      checkCircuit(circuit, quickChecks)
        .findings.map(({ message, why, cure }) => `${message} ${why} ${cure}`)
        .join('\n'),
    );
    await stage('values', () => {
      const sets = [valuesOf(circuit, 'period')];
      const look = { style: 'period', columns: 80, styles: plainStyles, short: false } as const;
      return sound(valuesInJson('any', sets)) + valuesInWords(sets, look);
    });
    await stage('dials', () => {
      const read = dialReadings(dialColumns(circuit), [550e3, 1e6, 1.5e6]);
      const words = dialsInWords(read, 'period', 80, plainStyles).join('\n');
      return sound(dialsInJson('any', [read])) + words;
    });
    await stage('response', () => {
      const told = responseOf(circuit, [600e3, 1.2e6]);
      const words = responseInWords(told, 'period', 80, plainStyles).join('\n');
      return sound(responseInJson('any', [told])) + words;
    });
    await stage('bench', () => {
      for (const { expected } of readingsOf(circuit).readings)
        for (const number of expected ? [expected.value, expected.low, expected.high] : [])
          if (Number.isNaN(number)) throw new Error('a reading is no number');
    });
    await stage('compare', () => {
      const other = readReceivers(formatText(text).text, 'any.receiver').circuits[index];
      if (other && !isSame(differencesOf(plainSetOf(circuit), plainSetOf(other))))
        throw new Error('formatting makes a difference');
    });
    await stage('draw', async () => {
      const scene = await drawCircuit(circuit, layoutEngine());
      return numbersOf(sceneToSvg(scene, {}));
    });
    await stage('tour', () => {
      const tour = tourOf(circuit, { overlayOf, viewsOf }, { level: 'restorer', units: 'period' });
      return tourMarkdown(tour, (step) => `${step}.svg`);
    });
    await stage('faults', () =>
      faultTable(circuit)
        .effects.map(({ words }) => words)
        .join('\n'),
    );
    await stage('suspects', () => {
      const bench = circuit.benches[0];
      const found = bench ? suspectsOf(circuit, bench).suspects : [];
      for (const { probability } of found)
        if (!Number.isFinite(probability)) throw new Error('a probability is no number');
    });
  }
  return failures;
}

/** JSON as written, or an error where it is none. */
function sound(json: string): string {
  JSON.parse(json);
  return json;
}

/** What a drawing says in numbers; titles may be called what they like. */
const numbersOf = (svg: string): string =>
  [...svg.matchAll(/ (?:d|x|y|width|height|viewBox|transform|points)="([^"]*)"/g)]
    .map(([, value]) => value)
    .join(' ');

/** Nonsense that the text itself says is the author's own. */
function withoutText(said: string, text: string): string {
  const own = text.match(/NaN|Infinity|undefined|∞|\[object /g) ?? [];
  return [...new Set(own)].reduce((left, word) => left.replaceAll(word, ''), said);
}
