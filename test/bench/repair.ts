import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { readReceivers } from '@setwright/language';
import {
  commonnessOf,
  READINGS,
  repairOf,
  tallyOf,
  workshopFor,
} from '../../packages/bench/test/repair/repairing.ts';

/*
 * Repairs, simulated: every single fault of every example with tubes. The set lies somewhere
 * within its tolerances and is solved from the beginning with the fault in; what is heard is told
 * with the usual slips; then what the tool advises is done, with the meter's errors, until the meter
 * has been read six times.
 */

const FOLDER = 'examples';
const FIGURES = 'test/bench/repair-figures.txt';
const SEED = 7919;

/** How one repair went. */
interface Outcome {
  readonly rank: number;
  readonly ranks: readonly number[];
  readonly ranksOfAll: readonly number[];
  /** Readings, clicks and dials together. */
  readonly done: number;
  readonly commonness: number;
  readonly kind: string;
  /** The first of what is heard of the fault. */
  readonly heard: string | undefined;
}

/** Every fault of an example, each with a seed of its own. */
function repairsOf(name: string): readonly Outcome[] {
  const { circuits } = readReceivers(readFileSync(`${FOLDER}/${name}.receiver`, 'utf8'), name);
  return circuits.flatMap((circuit) => {
    if (!circuit.parts.some(({ kind }) => kind === 'tube')) return [];
    const workshop = workshopFor(circuit);
    return workshop.causes.map((cause, at): Outcome => {
      const { rank, ranks, ranksOfAll, readings } = repairOf(
        workshop,
        cause,
        SEED * (at + 1) + name.length,
      );
      const [heard] = cause.sounding.heard;
      const kind = cause.faults[0]?.kind ?? '';
      const done = readings.length;
      return { rank, ranks, ranksOfAll, done, commonness: commonnessOf(cause), kind, heard };
    });
  });
}

/** One example in a thread of its own. */
function inThread(name: string): Promise<readonly Outcome[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url), { workerData: name });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(8);

function lineOf(name: string, outcomes: readonly Outcome[], readings = READINGS): string {
  const plain = tallyOf(outcomes, () => 1, readings);
  const common = tallyOf(outcomes, ({ commonness }) => commonness, readings);
  return [
    name.padEnd(30),
    String(plain.repairs).padStart(7),
    percent(plain.first),
    percent(plain.firstThree),
    percent(common.first),
    percent(common.firstThree),
  ].join('  ');
}

/** The outcomes of each kind, the kind with most of them first. */
function byKind(outcomes: readonly Outcome[], kindOf: (each: Outcome) => string): string[] {
  const kinds = new Map<string, Outcome[]>();
  for (const each of outcomes) kinds.set(kindOf(each), [...(kinds.get(kindOf(each)) ?? []), each]);
  return [...kinds].sort((a, b) => b[1].length - a[1].length).map(([kind, of]) => lineOf(kind, of));
}

async function run(only: string | undefined): Promise<void> {
  const lines: string[] = [];
  const write = (line: string) => {
    lines.push(line);
    console.log(line);
  };
  for (const line of [
    'Simulated repairs: every single fault of every example with tubes, once each.',
    'What is heard, then up to six readings of the meter as the tool advises, with the clicks and dials',
    'that it asks for between them; the true fault, or one that no reading, click or dial tells from',
    'it, stands first or among the first three. By commonness: each fault counts as often as it',
    'happens. A meter of 10 megohms, good to 1 %. Made by: npm run repair',
    '',
    `${'example'.padEnd(30)}  repairs     first  in three  by commonness: first, in three`,
  ])
    write(line);
  const names = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.receiver'))
    .map((name) => name.replace(/\.receiver$/, ''))
    .filter((name) => only === undefined || name === only);
  const found = new Map<string, readonly Outcome[]>();
  const waiting = [...names];
  const takeOver = async (): Promise<void> => {
    for (let name = waiting.shift(); name !== undefined; name = waiting.shift()) {
      found.set(name, await inThread(name));
      console.error(`${name} is done`);
    }
  };
  await Promise.all(Array.from({ length: availableParallelism() }, takeOver));
  const all = names.flatMap((name) => found.get(name) ?? []);
  for (const name of names) {
    const outcomes = found.get(name) ?? [];
    if (outcomes.length > 0) write(lineOf(name, outcomes));
  }
  write(lineOf('all', all));
  const done = all.reduce((sum, each) => sum + each.done, 0) / Math.max(1, all.length);
  write('');
  write(`readings, clicks and dials together: ${done.toFixed(1)} to a repair`);
  write('');
  write('after so many things done, clicks and dials counted as readings');
  const ofAll = all.map((each) => ({ ...each, ranks: each.ranksOfAll }));
  for (let things = 0; things <= READINGS; things++) write(lineOf(String(things), ofAll, things));
  write('');
  write('after so many readings of the meter');
  for (let readings = 0; readings <= READINGS; readings++)
    write(lineOf(String(readings), all, readings));
  write('');
  write('by what is heard of the fault');
  for (const line of byKind(all, ({ heard }) => heard ?? 'nothing')) write(line);
  write(
    lineOf(
      'whatever is heard',
      all.filter(({ heard }) => heard !== undefined),
    ),
  );
  write('');
  write('by the kind of fault');
  for (const line of byKind(all, ({ kind }) => kind)) write(line);
  if (only === undefined) writeFileSync(FIGURES, `${lines.join('\n')}\n`);
}

if (isMainThread) await run(process.argv[2]);
else parentPort?.postMessage(repairsOf(String(workerData)));
