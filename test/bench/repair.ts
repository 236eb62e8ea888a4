import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import {
  commonnessOf,
  type Repair,
  repairOf,
  tallyOf,
  workshopFor,
} from '../../packages/bench/test/repair/repairing.ts';

/*
 * Repairs, simulated: every single fault of every example with tubes. The set lies somewhere
 * within its tolerances and is solved from the beginning with the fault in; what is heard is told
 * with the usual slips; then six times what the tool advises is read, with the meter's errors.
 */

const FOLDER = 'examples';
const FIGURES = 'test/bench/repair-figures.txt';
const SEED = 7919;

const only = process.argv[2];
const names = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.receiver'))
  .map((name) => name.replace(/\.receiver$/, ''))
  .filter((name) => only === undefined || name === only);

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(8);

function lineOf(name: string, repairs: readonly Repair[]): string {
  const plain = tallyOf(repairs);
  const common = tallyOf(repairs, ({ cause }) => commonnessOf(cause));
  return [
    name.padEnd(30),
    String(plain.repairs).padStart(7),
    percent(plain.first),
    percent(plain.firstThree),
    percent(common.first),
    percent(common.firstThree),
  ].join('  ');
}

const lines = [
  'Simulated repairs: every single fault of every example with tubes, once each.',
  'What is heard, then six readings as the tool advises; the true fault, or one that no reading',
  'tells from it, stands first or among the first three. By commonness: each fault counts as',
  'often as it happens. A meter of 10 megohms, good to 1 %. Made by: npm run repair',
  '',
  `${'example'.padEnd(30)}  repairs     first  in three  by commonness: first, in three`,
];
const all: Repair[] = [];
const write = (line: string) => {
  lines.push(line);
  console.log(line);
};
for (const line of lines) console.log(line);
for (const name of names) {
  const { circuits } = readReceivers(readFileSync(`${FOLDER}/${name}.receiver`, 'utf8'), name);
  for (const circuit of circuits) {
    if (!circuit.parts.some(({ kind }) => kind === 'tube')) continue;
    const workshop = workshopFor(circuit);
    const repairs = workshop.causes.map((cause, at) =>
      repairOf(workshop, cause, SEED * (at + 1) + name.length),
    );
    all.push(...repairs);
    write(lineOf(name, repairs));
  }
}
write(lineOf('all', all));
for (const [heading, ofKind] of [
  [
    'by what is heard of the fault',
    ({ cause }: Repair) => [...cause.sounding.heard][0] ?? 'nothing',
  ],
  ['by the kind of fault', ({ cause }: Repair) => cause.faults[0]?.kind ?? ''],
] as const) {
  write('');
  write(heading);
  const kinds = new Map<string, Repair[]>();
  for (const repair of all) {
    const kind = ofKind(repair);
    kinds.set(kind, [...(kinds.get(kind) ?? []), repair]);
  }
  for (const [kind, repairs] of [...kinds].sort((a, b) => b[1].length - a[1].length))
    write(lineOf(kind, repairs));
}
if (only === undefined) writeFileSync(FIGURES, `${lines.join('\n')}\n`);
