import { checkCircuit, quickChecks } from '@setwright/checks';
import type { Circuit } from '@setwright/circuit';
import { differencesOf, isSame, plainSetOf } from '@setwright/compare';
import { formatText, readReceivers } from '@setwright/language';
import { type Chance, chanceOf } from '../support/random/chance.ts';
import { callOn, calls } from './calls.ts';
import { editorOn, pagesOn } from './editor.ts';
import { sensible } from './judging.ts';

/** What went wrong with an input. */
export interface Failure {
  readonly stage: string;
  readonly message: string;
}

/** Whoever wants to know how far it has come, and what each piece of work took in milliseconds. */
export interface Clock {
  readonly begins: (stage: string) => void;
  readonly ends: (stage: string, milliseconds: number) => void;
}

/** Of how many inputs one goes through each stage: what takes long is tried of fewer. */
const oneOf = {
  ...{ read: 1, format: 1, findings: 1, same: 4 },
  // Calls of the command line tool, whose every output is judged.
  ...{
    check: 5,
    sarif: 50,
    thorough: 150,
    words: 10,
    describe: 12,
    trace: 12,
    values: 12,
    dials: 12,
  },
  ...{
    compare: 80,
    marked: 150,
    response: 50,
    bench: 16,
    faults: 300,
    suspects: 400,
    supposed: 60,
  },
  ...{ draw: 50, tour: 100, report: 200, collection: 1000 },
  // An editor that asks the language server.
  ...{ editor: 50, pages: 250 },
} as const satisfies Readonly<Record<string, number>>;

type Stage = keyof typeof oneOf;

/**
 * Puts a text through everything that is made of sets, and gives what went wrong: whatever throws,
 * every figure and word that is none, and whatever is not well-formed.
 *
 * @param thin what is not tried of every input is tried of so many times fewer; 0 tries all
 * @param only the stages that are tried besides reading; all where not given
 */
export async function tried(
  text: string,
  seed: number,
  clock?: Clock,
  thin = 1,
  only?: ReadonlySet<string>,
): Promise<readonly Failure[]> {
  const failures: Failure[] = [];
  const stage = async (name: Stage, work: (chance: Chance) => unknown): Promise<void> => {
    // Each stage has chances of its own: a new one does not change what is tried in the others.
    const chance = chanceOf(seed ^ numberOf(name));
    const share = oneOf[name];
    if (only && name !== 'read' && !only.has(name)) return;
    if (share > 1 && chance.below(Math.max(1, Math.round(share * thin))) > 0) return;
    // What is quick is told of once an input: telling takes longer than it does.
    if (share > 1) clock?.begins(name);
    const from = performance.now();
    try {
      await work(chance);
    } catch (error) {
      failures.push({
        stage: name,
        message: error instanceof Error ? `${error.message}\n${error.stack}` : `${error}`,
      });
    }
    clock?.ends(name, performance.now() - from);
  };
  let circuits: readonly Circuit[] = [];
  await stage('read', () => {
    const read = readReceivers(text, 'any.receiver');
    circuits = read.circuits;
    const remarks = [...read.remarks, ...circuits.flatMap((circuit) => circuit.remarks)];
    sensible(remarks.map(({ message, why, cure }) => `${message} ${why} ${cure}`).join('\n'), text);
  });
  await stage('format', (chance) => {
    const once = formatText(text).text;
    if (chance.percent(25) && formatText(once).text !== once)
      throw new Error('formatting again gives another text');
  });
  await stage('findings', () => {
    for (const circuit of circuits.slice(0, 2)) {
      const { findings } = checkCircuit(circuit, quickChecks);
      const words = findings.map(({ message, why, cure }) => `${message} ${why} ${cure}`);
      sensible(words.join('\n'), text);
      for (const { place } of findings)
        if (!(place.start >= 0 && place.start <= place.end && place.end <= text.length))
          throw new Error(`a finding from ${place.start} to ${place.end} of ${text.length}`);
    }
  });
  await stage('same', () => {
    const others = readReceivers(formatText(text).text, 'any.receiver').circuits;
    for (const [index, circuit] of circuits.slice(0, 2).entries()) {
      const other = others[index];
      if (other && !isSame(differencesOf(plainSetOf(circuit), plainSetOf(other))))
        throw new Error('formatting makes a difference');
    }
  });
  for (const name of Object.keys(calls) as (keyof typeof calls)[])
    await stage(name, (chance) => callOn(name, text, seed, chance));
  await stage('editor', (chance) => editorOn(text, chance));
  await stage('pages', (chance) => pagesOn(text, seed, chance));
  return failures;
}

/** A number for a name, the same on every machine. */
function numberOf(name: string): number {
  let number = 0x5eed;
  for (const letter of name) number = (Math.imul(number, 31) + letter.charCodeAt(0)) | 0;
  return number;
}
